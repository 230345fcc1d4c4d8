"""Somebody who walks through the pages with a real browser and stops at the first thing that is wrong with one."""

from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Locator, Page, Response

AXE = (Path(__file__).parent / "vendor" / "axe.min.js").read_text()

# Run in every page before its own scripts: a breach of the content policy becomes an error of the console.
REPORT_BREACHES = """
document.addEventListener('securitypolicyviolation', (breach) =>
  console.error(`content policy: ${breach.violatedDirective} refused ${breach.blockedURI} ${breach.sample}`));
"""

RUN_AXE = """async () => {
  const found = await axe.run(document, {resultTypes: ['violations']});
  return found.violations.flatMap((rule) => rule.nodes.map((node) => `${rule.id}: ${node.html.slice(0, 160)} (${node.failureSummary})`));
}"""

# What sticks out to the right of the screen: the innermost ones, so that the culprit and not its parents is named.
STICKS_OUT = """() => {
  const wide = document.documentElement.clientWidth, needs = document.documentElement.scrollWidth;
  if (needs <= wide) return [];
  const out = [...document.querySelectorAll('body *')].filter(
    (one) => one.getBoundingClientRect().right > wide + 0.5 || (one.scrollWidth > wide && getComputedStyle(one).overflowX === 'visible'));
  return [`sticks out to ${needs} of ${wide} px: ` + out.slice(-3).map((one) => one.outerHTML.slice(0, 160)).join(' | ')];
}"""


@dataclass
class Visitor:
    """A browser tab at one width. Every page that it comes to is looked over; `wrong` gathers what the browser reports."""

    page: Page
    address: str
    wrong: list[str] = field(default_factory=list)
    refused: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.page.add_init_script(REPORT_BREACHES)
        self.page.on("console", self._hear)
        self.page.on("pageerror", lambda error: self.wrong.append(f"script: {error}"))
        self.page.on("response", self._see)

    def goto(self, path: str, status: int = 200) -> None:
        """Open an address of the product and look the page over."""
        self._arrive(self.page.goto(self.address + path), status)

    def press(self, name: str, status: int = 200, within: Locator | None = None) -> None:
        """Press the one button or link of this name and look over the page that it leads to."""
        self.follow(self.named(name, within), status)

    def follow(self, target: Locator, status: int = 200) -> None:
        """Press something that leads to another page, and look that page over."""
        with self.page.expect_navigation() as arrival:
            target.click()
        self._arrive(arrival.value, status)

    def named(self, name: str, within: Locator | None = None) -> Locator:
        """The one button or link of this name."""
        ground = within or self.page.locator("body")
        return ground.get_by_role("button", name=name, exact=True).or_(ground.get_by_role("link", name=name, exact=True))

    def fill(self, label: str, value: str) -> None:
        """Fill the field with this label; a field in a folded part of the page is unfolded as a person would."""
        field = self.page.get_by_label(label, exact=True)
        if not field.is_visible():
            self.page.locator("details", has=field).locator("summary").click()
        field.fill(value)

    def says(self, words: str) -> None:
        """Fail unless these words can be read on the page."""
        assert words in self.text(), f"{words!r} is not on {self.page.url}: {self.text()}"

    def text(self) -> str:
        """All that can be read on the page, with blanks made single."""
        return " ".join(self.page.locator("body").inner_text().split())

    def look(self) -> None:
        """Fail on anything that the browser reported, on an accessibility finding, and on what sticks out of the screen."""
        self.page.evaluate(AXE + ";0")
        found = [*self.reported(), *self.page.evaluate(RUN_AXE), *self.page.evaluate(STICKS_OUT)]
        assert not found, "\n".join([self.page.url, *found])

    def reported(self) -> list[str]:
        """What the browser reported so far; a page that was refused on purpose is no error."""
        return [line for line in self.wrong if line not in self.refused]

    def _arrive(self, response: Response | None, status: int) -> None:
        assert response is not None, f"{self.page.url} gave no answer"
        assert response.status == status, f"{response.url} answered {response.status}: {self.text()}"
        self.look()

    def _hear(self, message) -> None:
        if message.type == "error":
            self.wrong.append(f"{message.location.get('url')}: {message.text}")

    def _see(self, response: Response) -> None:
        if response.status >= 500:
            self.wrong.append(f"{response.url} answered {response.status}")
        elif response.status >= 400 and response.request.is_navigation_request():
            # The browser calls every refused page an error, our sentence at the form included.
            words = f"Failed to load resource: the server responded with a status of {response.status} ({response.status_text})"
            self.refused.add(f"{response.url}: {words}")
