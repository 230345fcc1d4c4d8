"""No label of any drawing touches another, is run through by a leader or reaches over the edge: every demo family, short, usual, long."""

from pathlib import Path

import pytest

from inspections.places import walk_of
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.drawing import SIZES, VIEWS, render, render_bay, render_piece, render_twin
from structures.frame.drawing.lanes import across, down
from structures.frame.drawing.sheet import Sheet
from structures.frame.reader import read_family
from tests.structures.drawn import Drawn
from tests.structures.frames import all_names, document, family

USUAL_FT = {"r14": 40, "g20": 48, "g26": 72, "g30": 96}
FAULTS = {"H1-R-foot:post:1": "stop", "H2-R-mid:band:1": "mend", "H2-ridge:connector:1": "again", "B2-L-side:brace:1": "mend",
          "H3-L-foot:post:1": "stop", "H1-L-purlin:band:1": "mend", "H2-R-purlin:connector:1": "mend"}


def _lengths(name: str) -> tuple[float, ...]:
    made = family(name)
    return made.shortest_in / 12, USUAL_FT[name[:3]], made.longest_in / 12


CASES = [(name, length) for name in all_names() for length in _lengths(name)]


def assert_clear(drawn: Drawn, which: str) -> None:
    assert drawn.labels, which
    assert drawn.overlaps() == [], which
    assert drawn.outside() == [], which
    assert drawn.strays() == [], which
    assert drawn.crossed_leaders() == [], which
    assert drawn.struck_labels() == [], which


@pytest.mark.parametrize(("name", "length"), CASES)
def test_everything_lit_leaves_every_label_clear(name, length):
    frame = document(name, length)
    lit = [option.code for option in frame.options]
    for view in VIEWS:
        for size in SIZES:
            assert_clear(Drawn(render(frame, view, size, lit=lit)), f"{view} {size}")


@pytest.mark.parametrize(("name", "length"), CASES)
def test_offered_options_in_millimetres_leave_every_label_clear(name, length):
    frame = document(name, length)
    wanted = [o.code for o in frame.options if o.no_because == "offered, not bought" and o.code in ("snow-ties", "roof-braces")]
    offered = document(name, length, tuple(wanted)) if wanted else None
    for view in VIEWS:
        for size in SIZES:
            drawn = Drawn(render(frame, view, size, lit=["side-braces"], offered=offered, units="metric",
                                 added={"side-braces": "12 March 2024"}))
            assert_clear(drawn, f"{view} {size}")


def test_a_family_that_is_no_demo_leaves_every_label_clear():
    text = (Path(__file__).parents[1] / "outside" / "families" / "common_practice_30.toml").read_text(encoding="utf-8")
    practice = read_family(text, source="common_practice_30.toml")
    frame = compute(practice, choose(practice, length_in=576, spacing_in=72, with_=("roof-braces",)), sha256="0" * 64)
    for view in VIEWS:
        for size in SIZES:
            assert_clear(Drawn(render(frame, view, size, lit=[o.code for o in frame.options])), f"{view} {size}")


@pytest.mark.parametrize("name", all_names())
def test_flags_of_things_wrong_find_clear_space(name):
    frame = document(name, USUAL_FT[name[:3]])
    for view in ("frame", "side-right", "side-left"):
        for size in SIZES:
            assert_clear(Drawn(render(frame, view, size, faults=FAULTS)), f"{view} {size}")


@pytest.mark.parametrize("name", all_names())
def test_a_bay_leaves_every_label_clear_whatever_was_seen_there(name):
    frame = document(name, USUAL_FT[name[:3]])
    stretches = [stretch for stretch in walk_of(frame) if stretch.bay in (1, 2, frame.measures.bays // 2, frame.measures.bays)]
    words = ("not", "well", "unseen", "stop", "mend", "again", "fault")
    for stretch in stretches:
        points = {place.id: place.at for place in stretch.places}
        for step in (0, 1, 3):
            states = {place.id: words[i * step % len(words)] for i, place in enumerate(stretch.places)}
            for size in ("narrow", "desk"):
                drawn = Drawn(render_bay(frame, stretch.bay, stretch.side, states, size, points=points))
                assert_clear(drawn, f"{stretch.key} {size} {step}")


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize(("length", "twin"), [(49.375, 48.4375), (48.4375, 49.375), (126.0, 123.0), (79.1875, 79.1875), (49.375, 49.3125)])
def test_a_twin_keeps_its_long_name_off_its_figure(length, twin, units):
    for name in ("G20 side brace", "Roof brace, lower, left twist, for the 26 ft gothic of revision D"):
        drawn = Drawn(render_twin(length, name, twin, hand="right", twin_hand="left", units=units))
        assert_clear(drawn, f"{length} {twin} {name}")


@pytest.mark.parametrize("ends", ["flattened and drilled both ends", "one plain, one swaged", "plain, one hole", "plain both ends"])
@pytest.mark.parametrize("hand", ["", "left", "right"])
def test_a_piece_end_keeps_its_words_inside(ends, hand):
    assert_clear(Drawn(render_piece(ends, tube_in=1.315, hand=hand, twist_deg=5.5)), ends)


def test_a_lane_keeps_the_order_and_the_step_and_moves_no_more_than_it_must():
    assert down([10, 100, 200], 20, 0, 300) == [10, 100, 200]
    assert down([100, 100, 100], 20, 0, 300) == pytest.approx([80, 100, 120])
    assert down([290, 295], 20, 0, 300) == pytest.approx([280, 300])
    assert down([], 20, 0, 300) == []


def test_words_above_lean_the_other_way_when_the_middle_is_full():
    inward = across([100, 900], [200, 200], 0, 1000, 20)
    assert inward == [120, 680]
    crowded = across([400, 600], [200, 200], 0, 1000, 20)
    assert crowded == [180, 620]
    assert across([400, 420], [500, 500], 0, 1000, 20).count(None) == 1


def test_words_over_an_object_line_break_it_with_paper():
    sheet = Sheet(200, 100, "wide")
    sheet.line("obj1", (0, 50), (200, 50), solid=True)
    sheet.text((20, 54), "4-0")
    sheet.text((20, 20), "4-0")
    assert sum('class="mask"' in line for line in sheet.out) == 1
