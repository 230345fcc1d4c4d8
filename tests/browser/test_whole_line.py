"""The one line from size and options to the walk round, by hand, in a browser, at the width of a phone and of a desk."""

import re
from datetime import date
from io import BytesIO

import pytest
from PIL import Image

from inventory.models import Order, PickEntry, StoredPaper
from structures.models import Structure
from tests.inventory.selling import a_family, stock

TODAY = date.today().isoformat()


@pytest.fixture
def photo() -> dict:
    """A photo as a phone sends it."""
    file = BytesIO()
    Image.radial_gradient("L").resize((1200, 900)).convert("RGB").save(file, "JPEG")
    return {"name": "corner.jpg", "mimeType": "image/jpeg", "buffer": file.getvalue()}


def test_from_size_and_options_to_the_walk_round(visitor_for, sue, wes, olive, ada, photo):
    a_family("g26-d")
    support, warehouse, owner = visitor_for(sue), visitor_for(wes), visitor_for(olive)
    number = take_an_order(support)
    confirm(support, number)
    put_in_bins(number, by=olive)
    pick(warehouse, number)
    tag = ship(warehouse, number)
    answer(support, number, tag)
    let_see(support, tag, ada)
    finish(support, tag)
    storm(owner, tag)
    walk(visitor_for(ada), tag, photo)
    send_parts(owner, tag)


def take_an_order(visitor) -> str:
    """Choose a size that can't be, then one that can, and take it down for Ada; give the order's number."""
    visitor.goto("/size/")
    page = visitor.page
    change(visitor, lambda: page.get_by_label("Length, feet-inches").fill("50-0"), commit=True)
    visitor.says("is no whole number of 4-0 bays: 48-0 or 52-0 would do.")
    assert page.get_by_label("Length, feet-inches").input_value() == "50-0"
    change(visitor, lambda: page.get_by_label("Length, feet-inches").fill("24-0"), commit=True)
    visitor.says("7 hoops, 6 bays of 4-0")
    change(visitor, lambda: page.get_by_role("checkbox", name=re.compile("snow", re.IGNORECASE)).check())
    visitor.press("Keep these choices")
    visitor.fill("Name", "Ada Quill")
    visitor.fill("Town", "Quillmere")
    visitor.fill("Phone, as it is said", "(207) 555-0117")
    visitor.fill("Promised for, empty while open", TODAY)
    visitor.press("Take it down as a draft")
    return Order.objects.get().label


def change(visitor, act, *, commit: bool = False) -> None:
    """Change a choice; the page answers at once by coming again."""
    with visitor.page.expect_navigation():
        act()
        if commit:
            visitor.page.keyboard.press("Tab")
    visitor.look()


def confirm(visitor, number: str) -> None:
    visitor.press(f"Confirm order {number}")
    visitor.says(f"Order {number} is confirmed: what was sold stands still from now on.")


def put_in_bins(number: str, *, by) -> None:
    """Everything that the order wants into bins, and one piece too few of the second."""
    lines = Order.objects.labelled(number).get().pick.lines.select_related("part").order_by("part__number")
    for n, line in enumerate(lines, 1):
        stock(line.part, line.to_pick - (n == 2), by=by, bin=f"A-{n:02d}", lot=f"P-{n:03d}", walk=n)


def pick(visitor, number: str) -> None:
    """A wrong label, a right count, a short line, and the rest from a printed sheet."""
    visitor.goto("/picks/")
    visitor.follow(visitor.page.get_by_role("link", name=re.compile(rf"\b{number}\b")).first)
    visitor.follow(visitor.page.get_by_role("link", name=re.compile(r"^Pick line 1$")))
    lines = list(Order.objects.labelled(number).get().pick.lines.select_related("part").order_by("part__number"))
    visitor.fill("Code on the label", lines[4].part.number)
    visitor.press("Take one by its label", status=422)
    visitor.says(lines[4].part.number)
    assert PickEntry.objects.count() == 0
    visitor.press("Take these")
    visitor.press("Take these")
    visitor.press("1 short")
    visitor.says("1 short. The line stays open.")
    enter_a_sheet(visitor, lines[0].pick.number)
    visitor.says("1 short")


def enter_a_sheet(visitor, pick_number: int) -> None:
    """Print the whole pick, and enter it: all as printed, except the line whose bin is empty."""
    visitor.goto(f"/picks/{pick_number}/")
    with visitor.page.expect_response(lambda answer: "/papers/" in answer.url) as printed:
        visitor.named("Print the whole pick").click()
    assert printed.value.headers["content-type"] == "application/pdf"
    visitor.goto(f"/picks/{pick_number}/")
    visitor.press("enter it")
    visitor.press("All as printed, except these", status=422)
    # The line that can't be as printed stands in a row of its own now.
    assert visitor.page.get_by_label("Row 4, line on the sheet").input_value() == "2"
    visitor.fill("Row 4, taken", "0")
    visitor.page.get_by_label("Row 4, why").select_option("bin empty, line stays open")
    visitor.press("All as printed, except these")
    visitor.says("is entered.")


def ship(visitor, number: str) -> str:
    """Send what was picked; the packing list is kept as it was sent. Give the tag of the structure."""
    visitor.goto(f"/orders/{number}/ship/")
    visitor.fill("Carried by", "our own truck")
    visitor.follow(visitor.page.get_by_role("button", name=re.compile(r"^Send \d+ packages?$")))
    visitor.says("The packing list is kept.")
    visitor.says("Still to come:")
    kept = StoredPaper.objects.get(kind="packing list")
    sent = visitor.page.request.get(visitor.address + f"/papers/{kept.pk}/")
    assert sent.body().startswith(b"%PDF-")
    assert sent.headers["x-paper-sha256"] == kept.sha256
    return Structure.objects.get().tag


def answer(visitor, number: str, tag: str) -> None:
    """The caller gives the end of a phone number; the answer is read aloud, lit and found on the tube."""
    visitor.goto("/")
    visitor.page.get_by_role("searchbox").fill("555 0117")
    visitor.press("Find")
    visitor.follow(visitor.page.get_by_role("link", name="braces, and where each goes").first)
    visitor.says("16 corner brace pieces")
    visitor.says(tag)
    assert visitor.page.locator("svg .lit:visible").count() > 0


def let_see(visitor, tag: str, who) -> None:
    """Ada bought it and may see it."""
    visitor.goto(f"/structures/{tag}/")
    visitor.fill("Name they sign in with", who.username)
    visitor.fill("Since", TODAY)
    visitor.press("Let them see it")
    visitor.says(who.called)


def finish(visitor, tag: str) -> None:
    """A day before the load left can't be the day on which it stood; the day itself can."""
    visitor.goto(f"/structures/{tag}/")
    day = "Finished on, empty while in parcels or unknown"
    visitor.fill(day, "2020-01-01")
    visitor.press("Keep", status=422)
    visitor.says(f"{tag} can't be finished on 1 January 2020: it left here on")
    visitor.fill(day, TODAY)
    visitor.press("Keep")
    visitor.says(f"{tag} stands")


def storm(visitor, tag: str) -> None:
    """A storm over the town makes a walk due there."""
    visitor.goto("/storms/new/")
    visitor.fill("Day", TODAY)
    visitor.page.get_by_label("What it was", exact=True).select_option(label="gusts")
    visitor.fill("Towns", "Quillmere, Tarn Mills")
    visitor.fill("Gust, mph", "61")
    visitor.fill("Who measured it", "the station at the Quillmere school")
    visitor.press("Enter it")
    visitor.says(f"{tag} Quillmere not looked yet")


def walk(visitor, tag: str, photo: dict) -> None:
    """Signs to leave first, then bay by bay: one band wrong with its photo, the rest of that bay as built, a corner, the end."""
    visitor.goto("/")
    visitor.says("Due now")
    visitor.follow(visitor.page.get_by_role("button", name=re.compile("^Walk round ")))
    visitor.says("Leave first, report second")
    visitor.press("I see none of these: begin")
    visitor.follow(visitor.page.locator(".way a").nth(1))
    something_wrong(visitor, photo)
    visitor.press("All the rest looks as built")
    visitor.says("kept as “looks as built”")
    visitor.goto(visitor.page.url.removeprefix(visitor.address).split("walk/")[0] + "corners/")
    visitor.page.locator("input[type=file]").first.set_input_files(photo)
    visitor.follow(visitor.page.get_by_role("button", name=re.compile("^Keep the photo of ")).first)
    visitor.press("To the end of the walk")
    visitor.says("Not looked at")
    visitor.press("End the walk and keep it so")
    visitor.says("The walk is ended and kept.")
    visitor.says("it says nothing of what the structure will bear")
    report = visitor.page.request.get(visitor.named("Report as PDF").evaluate("(link) => link.href"))
    assert report.body().startswith(b"%PDF-")


def something_wrong(visitor, photo: dict) -> None:
    """Choose a brace's place, say what is wrong with it, and take its photo."""
    visitor.follow(visitor.page.locator(".places a", has_text=re.compile("brace", re.IGNORECASE)).first)
    page = visitor.page
    page.get_by_role("radio", name="Something wrong").check()
    page.get_by_role("radio", name="Band clamp loosened").check()
    page.get_by_role("radio", name="Mend this week").check()
    page.locator("input[type=file]").set_input_files(photo)
    visitor.press("Keep")


def send_parts(visitor, tag: str) -> None:
    """What was found wrong comes to the owner, who sends for it."""
    visitor.goto("/wrong/")
    visitor.follow(visitor.page.locator("tbody tr", has_text=tag).get_by_role("link").first)
    visitor.says("Band clamp loosened")
    visitor.press("Sent")
    visitor.says("sent")
