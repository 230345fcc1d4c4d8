"""Labels of drawings, measured in a browser with the real fonts: none lies on another, none leaves its picture."""

import pytest

from inspections.places import walk_of
from structures.frame.document import Document
from structures.frame.drawing import SIZES, VIEWS, joint_kinds, render, render_bay, render_joint, render_piece, render_twin
from tests.browser.conftest import DESK, PHONE
from tests.browser.labels import wrong_labels
from tests.structures.families import NAMES, document, family, shortest_and_longest

SIZES_AT = {390: ("narrow",), 1280: tuple(size for size in SIZES if size != "narrow")}
BAY_SIZES = {390: "narrow", 1280: "desk"}


@pytest.fixture
def page(browser, screen):
    context = browser.new_context(**screen)
    yield context.new_page()
    context.close()


def pictures_of(plain: Document, full: Document, sizes: tuple[str, ...]) -> dict[str, str]:
    """Every view: nothing chosen; everything chosen and lit; everything offered and not bought."""
    everything = [option.code for option in full.options if option.included]
    cases = {
        "plain": (plain, {}),
        "lit": (full, {"lit": everything}),
        "offered": (plain, {"offered": full}),
    }
    return {
        f"{case} {view} {size}": render(shown, view, size, name=f"{case}-{view}-{size}", **asked)
        for case, (shown, asked) in cases.items()
        for view in (*VIEWS, "inside-tag-left", "corner-far-right")
        for size in sizes
    }


@pytest.mark.parametrize("end", ["shortest", "longest"])
@pytest.mark.parametrize("name", NAMES)
def test_no_label_lies_on_another_or_leaves_its_picture(page, screen, name, end):
    length_in = shortest_and_longest(family(name))[end == "longest"]
    sizes = SIZES_AT[screen["viewport"]["width"]]
    pictures = pictures_of(document(name, length_in, "plainest"), document(name, length_in, "fullest"), sizes)
    assert wrong_labels(page, pictures) == []


@pytest.mark.parametrize("end", ["shortest", "longest"])
@pytest.mark.parametrize("name", NAMES)
def test_no_label_of_a_bay_lies_on_another_or_leaves_its_picture(page, screen, name, end):
    full = document(name, shortest_and_longest(family(name))[end == "longest"], "fullest")
    size = BAY_SIZES[screen["viewport"]["width"]]
    assert wrong_labels(page, {key: svg for state in ("not", "mend") for key, svg in bays_of(full, size, state)}) == []


@pytest.mark.parametrize("name", NAMES)
def test_no_label_of_a_joint_lies_on_another_or_leaves_its_picture(page, screen, name):
    full = document(name, shortest_and_longest(family(name))[0], "fullest")
    pictures = {
        f"{kind.role} {size}": render_joint(full, kind.fitting, size, role=kind.role, name=f"{kind.role}-{size}".replace(" ", "-"))
        for kind in joint_kinds(full)
        for size in SIZES_AT[screen["viewport"]["width"]]
    }
    assert pictures
    assert wrong_labels(page, pictures) == []


def bays_of(full: Document, size: str, state: str):
    """The bays at both ends, next to them and in the middle, with every place in one state."""
    bays = {1, 2, full.measures.bays // 2 + 1, full.measures.bays}
    for stretch in walk_of(full):
        if stretch.bay in bays:
            states = {place.id: state for place in stretch.places}
            points = {place.id: place.at for place in stretch.places}
            key = f"bay {stretch.bay} {stretch.side} {state}"
            yield key, render_bay(full, stretch.bay, stretch.side, states, size, points=points, name=key.replace(" ", "-"))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("screen", [PHONE], ids=["390"], indirect=True)
def test_no_label_in_the_hand_lies_on_another_or_leaves_its_picture(page, name):
    """Every piece with ends, and every piece over every other that is near it in length."""
    made = family(name)
    pieces = [part for part in made.parts.values() if part.ends and part.tube and part.length_in]
    pictures = {}
    for part in pieces:
        tube_in = made.tubes[part.tube].diameter_in
        pictures[part.number] = render_piece(part.ends, tube_in=tube_in, hand=part.hand, twist_deg=30.0, name=part.number)
        for other in pieces:
            if other is not part and abs(other.length_in - part.length_in) <= 3:
                key = f"{part.number}-{other.number}"
                pictures[key] = render_twin(part.length_in, other.name, other.length_in, hand=part.hand, twin_hand=other.hand, name=key)
    assert pictures
    assert wrong_labels(page, pictures) == []


SVG = '<svg class="dw" viewBox="0 0 200 100">{}</svg>'
FAULTS = {
    "words on words": ('<text class="f13" x="10" y="50">4-1 3/8</text><text class="f13" x="40" y="54">8-10</text>', "lies on"),
    "turned words on words": (
        '<text class="f13" x="20" y="50">4-1 3/8</text><text class="f13" transform="rotate(90 30 40)" x="30" y="40">8-10</text>',
        "lies on",
    ),
    "a disc on words": ('<text class="f13" x="10" y="50">4-1 3/8 to the hip</text><circle class="mk" cx="80" cy="48" r="9"/>', "lies on"),
    "words past the edge": ('<text class="f13" x="170" y="50">4-1 3/8 and more</text>', "leaves the picture"),
}


@pytest.mark.parametrize("screen", [DESK, PHONE], ids=["1280", "390"], indirect=True)
@pytest.mark.parametrize("name", FAULTS)
def test_a_bad_label_is_seen(page, name):
    fault, words = FAULTS[name]
    found = wrong_labels(page, {"picture": SVG.format(fault)})
    assert len(found) == 1
    assert words in found[0]


@pytest.mark.parametrize("screen", [DESK], ids=["1280"], indirect=True)
def test_a_letter_in_its_disc_and_words_side_by_side_are_no_fault(page):
    sound = (
        '<circle class="mk" cx="20" cy="20" r="9"/><text class="f12" text-anchor="middle" x="20" y="24">a</text>'
        '<text class="f13" x="40" y="24">4-1 3/8</text><text class="f13" x="40" y="43">8-10</text>'
    )
    assert wrong_labels(page, {"picture": SVG.format(sound)}) == []
