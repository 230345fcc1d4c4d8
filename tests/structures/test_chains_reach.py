"""How far a following end may come to lie, and what stops it; tails where ear and bolt head are not given."""

import dataclasses
from pathlib import Path

import pytest

from structures.frame.build import build_frame
from structures.frame.build.reach import measure_reach, moves
from structures.frame.choose import choose
from structures.frame.document import Bar
from structures.frame.family import Base, Landing, OneOff, Station
from structures.frame.reader import read_family
from tests.structures.family_texts import changed
from tests.structures.frames import document, family

PRACTICE = Path(__file__).resolve().parents[1] / "outside" / "families" / "common_practice_30.toml"


def built(fam, **asked):
    return build_frame(fam, choose(fam, length_in=576, **asked))


def reach(braces, ident):
    return next(brace.reach for brace in braces if brace.id == ident)


def with_seam(fam, inches, *, covered=False):
    seams = tuple(dataclasses.replace(seam, from_foot_in=inches, may_be_covered=covered) for seam in fam.hoop.seams)
    return dataclasses.replace(fam, hoop=dataclasses.replace(fam.hoop, seams=seams))


def test_the_upper_side_landing_goes_from_the_foot_bolt_to_the_purlin_ends_band():
    """The foot bolt, 3/8 in. wide, lies 4 in. up and the purlin end's lower band, 1 1/4 in. wide, half a width below 104: the centre of
    a band of 1 1/4 in. goes from 4 + 3/16 + 5/8 to 104 - 1 1/4 - 5/8."""
    found = reach(document("g26-d", without=("channel",)).braces, "B1-L-side:brace:1")
    assert (found.end, found.low_in, found.low_stop) == ("from", pytest.approx(4.8125), "H1-L-foot:bolt:1")
    assert (found.high_in, found.high_stop) == (pytest.approx(102.125), "H1-L-purlin:band:1")


def test_a_band_butted_to_it_goes_along_and_is_stopped_in_its_place():
    """At hoop 2 the next piece's band stands on the following one: both go up until the upper meets the connector at 104."""
    found = reach(document("g26-d", without=("channel",)).braces, "B2-L-side:brace:1")
    assert (found.high_in, found.high_stop) == (pytest.approx(104 - 0.625 - 1.25 - 0.625), "H2-L-purlin:connector:1")


def test_a_lower_band_butted_to_it_is_stopped_at_the_tie():
    """The roof's lower piece is bolted after the upper one, below it."""
    doc = document("g26-d", 48)
    tie = next(joint for joint in doc.joints if joint.id == "H2-L-tie:band:1")
    found = reach(doc.braces, "B2-L-roof:brace:1")
    assert (found.low_in, found.low_stop) == (pytest.approx(tie.from_foot_in + 0.625 + 1.25 + 0.625), tie.id)


def test_near_a_ridge_that_is_a_bend_it_stays_clear_of_the_crown():
    doc = document("g26-d", 48, without=("ties",))
    found = reach(doc.braces, "B2-L-roof:brace:1")
    assert (found.high_in, found.high_stop) == (pytest.approx(doc.measures.ridge_mark_in - 1.5), "ridge")


def test_a_seam_stops_it_unless_it_may_be_covered():
    fam = family("g26-d")
    stopped = reach(built(with_seam(fam, 70.0), without={"channel"}).braces, "B1-L-side:brace:1")
    assert (stopped.high_in, stopped.high_stop) == (pytest.approx(70 - 0.625), "seam")
    covered = reach(built(with_seam(fam, 70.0, covered=True), without={"channel"}).braces, "B1-L-side:brace:1")
    assert covered.high_stop == "H1-L-purlin:band:1"


def test_a_board_on_the_hoops_stops_it_by_its_name_and_one_that_hangs_free_does_not():
    """A board 5 1/2 in. wide lies outside the leg with its middle 40 in. up, along hoops 1 to 3 on the left."""
    frame = built(family("g26-d"), without={"channel"})
    board = Bar("L-low:board", "board", "low board", "left", -156 - 0.95 - 0.75, 40.0, 0.0, 1.0, 5.5, 1.5, 0.0, 96.0)
    frame.bars = [board]
    measure_reach(frame)
    found = reach(frame.braces, "B1-L-side:brace:1")
    assert (found.low_in, found.low_stop) == (pytest.approx(40 + 2.75 + 0.625), "low board")
    assert reach(frame.braces, "B1-R-side:brace:1").low_stop == "H1-R-foot:bolt:1"
    assert reach(frame.braces, "B12-L-side:brace:1").low_stop == "H13-L-foot:bolt:1"
    frame.bars = [dataclasses.replace(board, x=-156 - 0.95 - 6)]
    measure_reach(frame)
    assert reach(frame.braces, "B1-L-side:brace:1").low_stop == "H1-L-foot:bolt:1"


def test_the_hip_channel_stops_it_and_the_channel_that_follows_the_end_hoop_does_not():
    """Channel 1 1/4 in. wide with its middle at the hip, 54 in. up: half of it and half a band below that."""
    found = reach(document("g26-d").braces, "B1-L-side:brace:1")
    assert (found.high_in, found.high_stop) == (pytest.approx(54 - 0.625 - 0.625, abs=1e-6), "hip channel")
    assert found.low_stop == "H1-L-foot:bolt:1"


def test_a_base_says_how_near_the_foot_a_band_may_come():
    fam = family("g26-d")
    runner = dataclasses.replace(fam, made_bases={"fixed": Base("fixed", "runner", lowest_in=7.5)})
    found = reach(built(runner).braces, "B2-L-side:brace:1")
    assert (found.low_in, found.low_stop) == (pytest.approx(7.5), "foot")


def test_a_post_that_stands_round_the_leg_stops_it_and_one_inside_the_leg_does_not():
    """G20's posts stand outside the legs, 6 in. above the ground: half a band of 1 1/4 in. above that. G26's stand inside."""
    found = reach(document("g20-b").braces, "B1-L-side:brace:1")
    assert (found.low_in, found.low_stop) == (pytest.approx(6 + 0.625), "H1-L-foot:post:1")
    fam = family("g20-b")
    inside = dataclasses.replace(fam, posts=dataclasses.replace(fam.posts, inside=True))
    assert reach(built(inside).braces, "B1-L-side:brace:1").low_stop == "H1-L-foot:bolt:1"


def test_a_piece_that_no_longer_reaches_says_so():
    """Nearly level, 46 in. of piece over a bay of 44 3/4: an inch and a half more along is more than the whole piece."""
    frame = built(family("g26-d"))
    brace = next(b for b in frame.braces if b.id == "B2-R-side:brace:1")
    level = dataclasses.replace(brace, length_in=46.0, landing_from=dataclasses.replace(brace.landing_from, from_foot_in=18.7))
    assert moves(frame, level, 0.5) < -0.5
    assert moves(frame, level, 1.5) is None


def test_a_piece_that_was_moved_or_added_has_its_reach_and_tails_too():
    def one_off(act, target, **more):
        return OneOff(act, target, "Olive Barrow", "the door stands there", "2026-03-01", **more)

    fam = family("g26-d")
    low = dataclasses.replace(fam, stations={**fam.stations, "low": Station("low", 29.5 - 20.86, "")})
    frame = built(low, without={"channel"}, one_offs=(
        one_off("leave out", "B1-L-side:brace:1"), one_off("move", "B2-L-side:brace:1", by_in=2.0),
        one_off("add", "H5-L-mid", target_2="H6-L-low", part="SB26")))
    plain = document("g26-d", 48)
    moved, added = (next(b for b in frame.braces if b.id == ident) for ident in ("B2-L-side:brace:1", "B5-L-side:brace:1"))
    assert (moved.set_end, moved.turned_end, moved.reach.end) == ("to", "from", "from")
    assert (added.set_end, added.turned_end, added.reach.end) == ("from", "to", "to")
    assert moved.reach.high_in == pytest.approx(104 - 0.625 - 0.625)
    for brace in (moved, added):
        assert brace.flat == plain.braces[0].flat
        assert brace.tail_from.made_in == pytest.approx(1 / 8 + 7 / 32 - 0.95)


def test_the_end_bolted_last_is_the_free_one_and_is_turned():
    for brace in document("g30-b", 96).braces:
        held, free = ((brace.landing_from, brace.landing_to) if brace.set_end == "from"
                      else (brace.landing_to, brace.landing_from))
        assert not free.set
        assert {brace.set_end, brace.turned_end} == {"from", "to"}
        assert brace.reach.end == brace.turned_end
        assert held.set == (held.station in ("foot", "high"))


def test_a_flattened_end_is_two_walls_thick():
    doc = document("g26-d")
    flat = doc.braces[0].flat
    assert {tie.flat for tie in doc.ties} == {flat}
    assert (flat.length_in, flat.width_in, flat.round_in) == (9 / 16, 9 / 8, 9 / 16)
    assert (flat.thick_in, flat.hole_in) == (pytest.approx(2 * 0.058), 11 / 32)


def test_tails_are_unknown_where_ear_or_head_is_not_given():
    fam = read_family(PRACTICE.read_text(encoding="utf-8"), source=PRACTICE.name)
    for brace in build_frame(fam, choose(fam)).braces:
        assert (brace.tail_from, brace.tail_to, brace.proud_in) == (None, None, None)
        assert brace.flat.hole_in is None


def with_head(fam, head_in):
    """The family with a higher bolt's head in its brace bands."""
    band = dataclasses.replace(fam.fittings["brace-band"], head_in=head_in)
    return dataclasses.replace(fam, fittings={**fam.fittings, "brace-band": band})


def test_an_end_that_stands_outside_its_hoops_line_is_warned_about_once_with_both_figures():
    """Ear 1/8 and head 1 in. over a tube of 1.9: 0.175 in. The lower roof piece's turned end rises by 9/16 sin 7.30 more, 0.0715, and
    by 9/16 sin 5.45, 0.0534, while its twist is not made: 0.247 and 0.300, which are 1/4 and 5/16 to the sixteenth."""
    said = [str(warning) for warning in built(with_head(family("g26-d"), 1.0)).warnings]
    assert ("The flattened end at H1-L-shoulder stands 0-0 1/4 outside its hoop's line (0-0 5/16 as long as its twist is not made), where "
            "it rubs the film.") in said
    assert "The flattened end at H3-L-foot stands 0-0 3/16 outside its hoop's line, where it rubs the film." in said
    assert len(said) == len(set(said)) == 6        # the three landings of both chains
    assert not any("rubs the film" in str(warning) for warning in built(family("g26-d")).warnings)


@pytest.mark.parametrize(("points", "known"), [("in", True), ("out", False), ("away from the tag end", False)])
def test_a_nut_on_the_films_side_is_unknown_and_not_nothing(points, known):
    old = 'hole_direction = "lengthwise"\ngoes_on = "opens"\nbolt_points = "in"'
    fam = read_family(changed((old, old.replace('"in"', f'"{points}"'))), source="g26-d.toml")
    assert all((brace.proud_in is not None) == known for brace in built(fam).braces)


def test_a_bolt_that_points_down_has_its_head_outside_on_a_roof_and_says_nothing_on_a_leg():
    old = 'hole_direction = "lengthwise"\ngoes_on = "opens"\nbolt_points = "in"'
    fam = read_family(changed((old, old.replace('"in"', '"down"'))), source="g26-d.toml")
    known = {brace.id: brace.proud_in is not None for brace in built(fam).braces}
    assert known["B2-L-roof:brace:1"]
    assert not known["B2-L-side:brace:1"]


def test_a_roof_chain_that_follows_up_to_the_ridge_is_warned_about():
    fam = family("g26-d")
    chain = next(chain for chain in fam.chains if chain.zone == "roof")
    landings = (Landing(1, "shoulder", True), *(dataclasses.replace(landing, set=False) for landing in chain.landings[1:]))
    chains = tuple(dataclasses.replace(c, landings=landings) if c is chain else c for c in fam.chains)
    said = [str(warning) for warning in built(dataclasses.replace(fam, chains=chains)).warnings]
    assert said == ["The roof chain follows up to high: left and right may end unequally far from the ridge; set it there."]
    assert not built(fam).warnings


def test_a_side_chain_set_on_a_roof_section_is_warned_about_where_sides_stand_first():
    """The side chain of the common-practice file ends above the seam on hoop 1; common practice, no source."""
    fam = read_family(PRACTICE.read_text(encoding="utf-8"), source=PRACTICE.name)
    turned = (Landing(1, "brace-hip", True), Landing(2, "mid"), Landing(3, "foot"))
    other = dataclasses.replace(fam, chains=tuple(dataclasses.replace(c, landings=turned) if c.zone == "side" else c for c in fam.chains))
    assert [str(said) for said in built(other).warnings] == [
        "The side chain is set at brace-hip, on a roof section, while its piece there hangs from its lower end until that section is on: "
        "set it at a landing on a side section."]
    assert built(fam).warnings == []
    whole = dataclasses.replace(other, hoop=dataclasses.replace(other.hoop, put_up="whole"))
    assert built(whole).warnings == []
