"""The page of drawings in a real browser: layers, lighting both ways by mouse and by keys, standing elsewhere, printing."""

import pytest

from tests.factories import structure

SEEN = "(one) => one.getClientRects().length > 0"     # checkVisibility says yes to a group that is not displayed
pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def at(visitor_for, ada, screen):
    """Ada at the drawings of her own structure."""
    made = structure(belongs_to=ada)

    def come(**query):
        visitor = visitor_for(ada)
        asked = "&".join(f"{name}={value}" for name, value in query.items())
        visitor.goto(f"/structures/{made.tag}/drawings/?{asked}")
        return visitor

    return come


def address(visitor) -> str:
    return visitor.page.url.partition("?")[2]


def line(visitor, part: str):
    return visitor.page.locator(f'button[data-part="{part}"]')


def pieces(visitor, part: str):
    """The pieces of a part in the drawing of this screen's width."""
    return visitor.page.locator(f'#drawing .pc[data-part="{part}"]:visible')


def lit(visitor) -> set[str]:
    """The place ids of the pieces that the drawing shows as lit."""
    return set(visitor.page.eval_on_selector_all(
        "#drawing .pc.is-lit", f"(all) => all.filter({SEEN}).map((one) => one.dataset.id)"))


def said(visitor) -> str:
    return visitor.page.locator("#said").inner_text()


def settled(visitor, key: str) -> None:
    """Wait till the drawing has come again with this lit."""
    visitor.page.wait_for_function("(key) => document.getElementById('drawing').dataset.lit === key", arg=key)


def test_a_line_of_the_kit_lights_its_pieces_and_a_link_shows_the_same(at):
    visitor = at(view="side-right")
    line(visitor, "SB26").click()
    settled(visitor, "SB26")
    assert line(visitor, "SB26").get_attribute("aria-pressed") == "true"
    assert said(visitor).startswith("Side brace, SB26: 8 of 4-1 3/8, at ")
    assert lit(visitor) == {f"B{bay}-R-side:brace:1" for bay in (1, 2, 11, 12)}
    assert "lit=SB26" in address(visitor)
    visitor.page.reload()
    assert line(visitor, "SB26").get_attribute("aria-pressed") == "true"
    assert lit(visitor) == {f"B{bay}-R-side:brace:1" for bay in (1, 2, 11, 12)}
    visitor.look()
    line(visitor, "SB26").click()
    settled(visitor, "")
    assert "lit=" not in address(visitor)
    assert said(visitor) == "Nothing is lit."


def test_touching_a_piece_lights_it_and_its_line(at):
    visitor = at(view="side-right")
    one = pieces(visitor, "SB26").first
    ident = one.get_attribute("data-id")
    box = one.bounding_box()
    visitor.page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    settled(visitor, ident)
    assert line(visitor, "SB26").get_attribute("aria-pressed") == "true"
    assert lit(visitor) == {ident}
    assert said(visitor) == f"{ident.split(':')[0]}: Side brace, SB26, one of 8."


def test_keys_reach_every_piece_and_light_it(at):
    visitor = at(view="side-right")
    every = visitor.page.eval_on_selector_all(
        "#drawing .pc", f"(all) => all.filter({SEEN}).map((one) => one.dataset.id)")
    reached = visitor.page.eval_on_selector_all(
        '#drawing .pc[tabindex="0"]', f"(all) => all.filter({SEEN}).map((one) => (one.focus(), one.dataset.id))")
    assert reached == every[:1]
    met = []
    for _ in every:
        met.append(visitor.page.evaluate("() => document.activeElement.dataset.id"))
        visitor.page.keyboard.press("ArrowRight")
    assert met == every
    brace = next(place for place in every if place.endswith("-R-side:brace:1"))
    visitor.page.keyboard.press("Home")
    for _ in range(every.index(brace)):
        visitor.page.keyboard.press("ArrowDown")
    visitor.page.keyboard.press("Enter")
    settled(visitor, brace)
    assert lit(visitor) == {brace}
    assert line(visitor, "SB26").get_attribute("aria-pressed") == "true"
    assert visitor.page.evaluate("() => document.activeElement.dataset.id") == brace
    visitor.look()


def test_a_line_lights_by_keys_and_on_the_way_past(at):
    visitor = at(view="side-right")
    line(visitor, "RU26").focus()
    visitor.page.keyboard.press("Shift+Tab")
    visitor.page.keyboard.press("Tab")
    assert lit(visitor) == {"B2-R-roof:brace:1", "B11-R-roof:brace:1"}
    assert said(visitor).startswith("Roof brace, upper, RU26: 4 of 6-7 3/16, at ")
    assert "lit=" not in address(visitor)
    visitor.page.keyboard.press("Space")
    settled(visitor, "RU26")
    assert "lit=RU26" in address(visitor)
    visitor.page.keyboard.press("Tab")
    assert {"B2-R-roof:brace:1", "B11-R-roof:brace:1"} <= lit(visitor)


def test_a_layer_hides_without_a_new_page_and_stays_hidden_by_its_address(at):
    visitor = at(view="inside-tag-right")
    bands = visitor.page.locator("#drawing .layer-hardware:visible")
    assert bands.count() > 0
    visitor.page.evaluate("() => { window.same = true; }")
    visitor.page.get_by_label("Hardware", exact=True).uncheck()
    assert bands.count() == 0
    assert visitor.page.locator("#drawing .layer-places").count() > 0
    assert visitor.page.evaluate("() => window.same") is True
    visitor.page.reload()
    assert bands.count() == 0
    assert not visitor.page.get_by_label("Hardware", exact=True).is_checked()
    visitor.look()


def hardware(visitor) -> set[str]:
    """The place ids of bands, connectors, screws and bolts that can be seen."""
    shown = visitor.page.eval_on_selector_all("#drawing .pc", f"(all) => all.filter({SEEN}).map((one) => one.dataset.id)")
    return {place for place in shown if place.split(":")[1] in ("band", "connector", "screw", "bolt", "splice", "bracket")}


@pytest.mark.parametrize("view", ["frame", "side-right", "section", "unrolled", "inside-tag-right"])
def test_hardware_is_lit_by_its_line_though_its_layer_is_hidden(at, view):
    visitor = at(view=view, chosen=1, layer="marks")
    assert not visitor.page.get_by_label("Hardware", exact=True).is_checked()
    assert hardware(visitor) == set()
    line(visitor, "BC190").hover()
    assert hardware(visitor) == lit(visitor)
    line(visitor, "BC190").click()
    settled(visitor, "BC190")
    assert said(visitor).startswith("Band clamp 1.90, BC190: 56, at ")
    assert "This view shows none" not in said(visitor)
    bands = lit(visitor)
    assert bands
    assert {place.split(":")[1] for place in bands} == {"band"}
    assert hardware(visitor) == bands
    visitor.look()
    visitor.page.get_by_label("Hardware", exact=True).check()
    assert hardware(visitor) > bands
    assert lit(visitor) == bands
    visitor.look()
    visitor.page.get_by_label("Hardware", exact=True).uncheck()
    line(visitor, "BC190").click()
    settled(visitor, "")
    visitor.page.mouse.move(1, 1)
    assert hardware(visitor) == set()


def test_a_joint_is_lit_with_its_line_and_a_link_shows_the_same(at):
    """A joint of three parts lights the line of the first of them: its band."""
    visitor = at(view="side-right", chosen=1, layer="hardware")
    band = "H2-R-mid:band:1"
    visitor.page.locator(f'#drawing .pc[data-id="{band}"]:visible').dispatch_event("click")
    settled(visitor, band)
    assert lit(visitor) == {band}
    assert line(visitor, "BC190").get_attribute("aria-pressed") == "true"
    assert said(visitor) == "H2-R-mid: Band clamp 1.90, BC190, one of 56."
    visitor.page.reload()
    assert lit(visitor) == {band}
    assert line(visitor, "BC190").get_attribute("aria-pressed") == "true"


def test_keys_pass_over_what_is_hidden_and_find_what_is_left(at):
    visitor = at(view="side-right", chosen=1, layer="hardware")
    page = visitor.page
    last = page.eval_on_selector_all(
        "#drawing .pc", f"(all) => {{ const seen = all.filter({SEEN}); seen[0].focus(); return seen.length; }}")
    page.keyboard.press("End")
    assert page.evaluate("() => Boolean(document.activeElement.closest('.layer-hardware'))")
    assert last > 100
    page.get_by_label("Hardware", exact=True).uncheck()
    reached = page.eval_on_selector_all(
        '#drawing .pc[tabindex="0"]', f"(all) => all.filter({SEEN}).map((one) => (one.focus(), one.dataset.id))")
    assert len(reached) == 1
    page.keyboard.press("End")
    assert not page.evaluate("() => Boolean(document.activeElement.closest('.layer-hardware'))")
    assert page.evaluate("() => document.activeElement.matches('.pc')")


def test_a_line_that_a_view_shows_none_of_is_said_so(at):
    """Posts stand in the ground below a frame that is laid flat; film screws are counted by a measure and lie nowhere."""
    visitor = at(view="unrolled")
    line(visitor, "GP166-30").click()
    assert said(visitor).endswith(" This view shows none of them.")
    assert lit(visitor) == set()
    line(visitor, "CH10").click()
    assert said(visitor).endswith("counted by a measure: no place in the drawing is theirs alone.")
    line(visitor, "PS131-106").click()
    assert "This view shows none" not in said(visitor)


def test_what_was_lit_and_ticked_goes_with_one_to_another_view(at):
    visitor = at(view="side-right")
    line(visitor, "RU26").click()
    visitor.page.get_by_label("Names of ends", exact=True).uncheck()
    settled(visitor, "RU26")
    turn(visitor, "Which drawing?", "side-left")
    assert line(visitor, "RU26").get_attribute("aria-pressed") == "true"
    assert not visitor.page.get_by_label("Names of ends", exact=True).is_checked()
    assert lit(visitor) == {"B2-L-roof:brace:1", "B11-L-roof:brace:1"}


def turn(visitor, label: str, choice: str) -> None:
    """Choose in one of the two lists, and wait till the drawing has turned."""
    visitor.page.get_by_label(label).focus()
    visitor.page.get_by_label(label).select_option(choice)
    visitor.page.wait_for_function("(choice) => [...new URLSearchParams(location.search).values()].includes(choice)", arg=choice)
    visitor.page.wait_for_function("() => document.querySelector('#how [name=was]').value === document.querySelector('#view').value")


def test_standing_elsewhere_turns_the_picture_and_the_words_at_once(at):
    visitor = at(view="frame", lit="RU26")
    visitor.page.evaluate("() => { window.same = true; }")
    turn(visitor, "Where are you standing?", "outside far end")
    visitor.look()
    visitor.says("You stand outside the far end, looking in: places with R are on your left")
    assert line(visitor, "RU26").get_attribute("aria-pressed") == "true"
    assert "B2-L-roof" in said(visitor)
    turn(visitor, "Where are you standing?", "inside facing tag left")
    visitor.look()
    visitor.says("You stand inside, facing the left corner of the tag end")
    assert visitor.page.get_by_label("Which drawing?").input_value() == "inside-tag-left"
    assert visitor.page.evaluate("() => [window.same, document.activeElement.id]") == [True, "standing"]
    visitor.page.go_back()
    visitor.page.wait_for_function("() => document.querySelector('#view').value === 'frame'")
    visitor.says("You stand outside the far end, looking in")


def test_another_drawing_brings_its_words_and_asks_no_place_of_a_joint(at):
    visitor = at(view="inside-tag-left")
    visitor.page.evaluate("() => { window.same = true; }")
    turn(visitor, "Which drawing?", "side-right")
    assert visitor.page.get_by_label("Where are you standing?").input_value() == "outside right"
    visitor.says("where each end lands")
    turn(visitor, "Which drawing?", "joint:connector:connector")
    visitor.says("What the letters name")
    assert visitor.page.get_by_label("Where are you standing?").count() == 0
    line(visitor, "CC190-131").click()
    assert "This view shows none" not in said(visitor)
    visitor.look()
    assert visitor.page.evaluate("() => window.same") is True


def test_the_drawing_stays_in_view_while_the_kit_goes_by(at, screen):
    visitor = at(view="side-right")
    visitor.page.locator(".kit-lines li").last.scroll_into_view_if_needed()
    box = visitor.page.locator("#drawing").bounding_box()
    assert 0 <= box["y"] < screen["viewport"]["height"] - box["height"]


def test_on_a_phone_the_drawing_is_the_first_thing_after_the_title(at, screen):
    visitor = at(view="frame")
    title, drawing, kit, choose = (visitor.page.locator(one).bounding_box()["y"] for one in ("h1", "#drawing", "#kit", "#view"))
    assert title < drawing < kit
    if screen["viewport"]["width"] < 768:
        assert drawing < choose
        assert visitor.page.locator("#drawing svg:visible").bounding_box()["width"] >= 358


def test_it_prints_the_drawing_and_the_kit_and_no_controls(at):
    visitor = at(view="inside-tag-right", lit="RU26")
    visitor.page.emulate_media(media="print")
    assert visitor.page.locator("#drawing svg:visible").count() == 1
    assert line(visitor, "SB26").is_visible()
    for control in (".layers", "#view", ".steps", ".strip", "#standing"):
        assert not visitor.page.locator(control).is_visible(), control


def test_every_kind_of_view_holds_still_at_this_width(at):
    for query in ({"view": "unrolled"}, {"view": "section"}, {"view": "corner-far-left"}, {"view": "joint:brace-band:side mid"},
                  {"view": "joint:connector:connector"}):
        at(**query)


@pytest.mark.parametrize("part", ["SB26", "BC190", "PS131-106"])
def test_targets_are_large_enough_for_a_thumb(part, at, screen):
    visitor = at()
    least = 72 if screen["viewport"]["width"] < 768 else 48
    assert line(visitor, part).bounding_box()["height"] >= least


def test_without_script_the_form_does_the_same(browser, screen, live_server, ada):
    from tests.browser.conftest import _session_of

    made = structure(belongs_to=ada)
    context = browser.new_context(**screen, java_script_enabled=False)
    context.add_cookies([_session_of(ada, live_server.url)])
    page = context.new_page()
    page.goto(f"{live_server.url}/structures/{made.tag}/drawings/?view=side-right")
    page.locator('button[data-part="SB26"]').click()
    assert page.locator('button[data-part="SB26"]').get_attribute("aria-pressed") == "true"
    assert page.locator("#drawing .lit:visible").count() > 0
    page.get_by_label("Names of ends", exact=True).uncheck()
    page.get_by_role("button", name="Show these").click()
    assert page.locator("#drawing .layer-names:visible").count() == 0
    assert page.locator('button[data-part="SB26"]').get_attribute("aria-pressed") == "true"
    page.locator('button[data-part="SB26"]').click()
    assert page.locator('button[data-part="SB26"]').get_attribute("aria-pressed") == "false"
    context.close()


def test_two_laid_side_by_side_and_an_add_on(visitor_for, olive, ada):
    made = structure(belongs_to=ada)
    visitor = visitor_for(olive)
    visitor.goto("/side-by-side/?a-family=G26-D&a-length=48-0&b-family=G26-D&b-length=72-0")
    visitor.says("What only this one has is lit.")
    visitor.goto("/side-by-side/")
    visitor.goto(f"/structures/{made.tag}/add-on/?option=snow-ties")
    visitor.says("For the snow pack on T-0412 a pack holds 5 pieces and 10 bands")
