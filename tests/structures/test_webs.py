"""Webs: tubes from a tie up to its hoop, hole to hole. Geometry is plain arithmetic written out here, from the drawing's figures."""

import json
import math
from collections import Counter

import pytest

from structures.frame.build import build_frame
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.document import Flat, read_document, write_document
from structures.frame.family import OneOff
from structures.frame.reader import read_family
from structures.frame.refusal import Refused
from tests.structures.family_texts import changed, sentences
from tests.structures.frames import document, family


def webbed(feet=96, **more):
    return document("g30-b", feet, ("webs",), **more)


def webs_of(doc):
    return [member for member in doc.members if member.role == "web"]


def test_each_tie_has_one_web_on_each_side_with_a_band_at_both_ends():
    doc = webbed()
    webs = webs_of(doc)
    # 96 ft: 25 hoops, a tie on each of the 23 inner ones
    assert len(doc.ties) == 23
    assert [web.id for web in webs] == [f"H{hoop}-{side}-web:web:1" for hoop in range(2, 25) for side in "LR"]
    held = Counter(held for joint in doc.joints if joint.kind == "band" for held in joint.holds)
    assert {held[web.id] for web in webs} == {2}
    # a tie has its own two bands, and those of its two webs
    assert {held[tie.id] for tie in doc.ties} == {4}


def test_the_kit_has_a_band_of_its_own_size_for_each_end():
    plain, doc = document("g30-b", 96), webbed()
    more = {line.part: line.needed - next((old.needed for old in plain.lines if old.part == line.part), 0) for line in doc.lines}
    assert {part: count for part, count in more.items() if count} == {
        "WB30": 46, "BC190": 46, "BC131": 46, "BT516-1": 92, "NT516": 92}


def test_a_web_is_as_long_as_its_holes_lie_apart():
    doc = webbed(48)
    web = next(member for member in webs_of(doc) if member.id == "H2-R-web:web:1")
    tie = doc.ties[0]
    # The tie's own holes lie level; the web's hole is 1 3/8 in. above it, 12 in. from the middle.
    assert web.start == (pytest.approx(12), 48, pytest.approx(tie.landing_from.hole[2] + 1.375))
    # The hoop 3 ft down its straight roof of 25 degrees from the peak of 179.982 in.; the hole 1 5/8 in. square to it, inward.
    pitch = math.radians(25)
    x = 36 * math.cos(pitch) - 1.625 * math.sin(pitch)
    z = 179.982 - 36 * math.sin(pitch) - 1.625 * math.cos(pitch)
    assert web.end == (pytest.approx(x, abs=1e-3), 48, pytest.approx(z, abs=1e-3))
    assert math.dist(web.start, web.end) == pytest.approx(31 + 13 / 16, abs=1 / 32)
    assert web.length_in == 31 + 13 / 16


def test_left_webs_mirror_the_right_ones():
    webs = {web.id: web for web in webs_of(webbed(48))}
    for hoop in range(2, 13):
        left, right = webs[f"H{hoop}-L-web:web:1"], webs[f"H{hoop}-R-web:web:1"]
        for a, b in ((left.start, right.start), (left.end, right.end)):
            assert (-a[0], a[1], a[2]) == (pytest.approx(b[0]), b[1], pytest.approx(b[2]))


def test_its_flattened_ends_are_as_its_ties_where_the_file_says_no_more():
    """G30 B presses its ties to 9/16, 1 1/8 and 9/16 in. with a hole of 11/32; its tubes have walls of 0.058 in., and a flat has two."""
    flats = {web.flat for web in webs_of(webbed(48))}
    assert flats == {Flat(0.5625, 1.125, 0.5625, 0.116, 0.34375)} == {tie.flat for tie in webbed(48).ties}


def test_a_file_may_give_a_web_a_flattened_end_of_its_own():
    own = 'role = "web"\nflat = "1/2 in"\nflat_width = "1 in"\nflat_hole = "5/16 in"\nfrom_middle'
    made = read_family(changed(('role = "web"\nfrom_middle', own), name="g30-b"), source="g30-b.toml")
    doc = compute(made, choose(made, length_in=576, with_=["webs"]), sha256="")
    assert {web.flat for web in webs_of(doc)} == {Flat(0.5, 1.0, 0.5625, 0.116, 0.3125)}
    assert {tie.flat for tie in doc.ties} == {Flat(0.5625, 1.125, 0.5625, 0.116, 0.34375)}
    back = read_document(json.dumps(write_document(doc)))
    assert [web.flat for web in webs_of(back)] == [web.flat for web in webs_of(doc)]
    assert not any(member.flat for member in back.members if member.role != "web")


def test_the_band_at_the_hoop_has_its_mark_and_the_one_on_the_tie_has_none():
    doc = webbed(48)
    mark = next(mark for mark in doc.marks if mark.name == "web band")
    assert (mark.code, mark.from_foot_in, mark.hoops) == ("web-top", pytest.approx(570.872 / 2 - 36, abs=1e-3), tuple(range(2, 13)))
    assert not any(mark.name == "web tie band" for mark in doc.marks)


def test_a_made_length_that_is_out_by_more_than_an_eighth_is_refused_with_both_figures():
    made = read_family(changed(('length = "2-7 13/16"', 'length = "2-8"'), name="g30-b"), source="g30-b.toml")
    with pytest.raises(Refused) as refused:
        build_frame(made, choose(made, length_in=576, with_=["webs"]))
    assert str(refused.value) == ("Web WB30 is made 2-8 long but from the tie to web-top the frame needs 2-7 13/16: they must match "
                                  "within 1/8 in.")
    build_frame(made, choose(made, length_in=576))


def test_a_tie_left_out_takes_its_webs_and_their_bands_along():
    made = family("g30-b")
    gone = OneOff("leave out", "H3-tie:tie:1", "olive", "to clear a boom", "2026-03-01")
    whole = choose(made, length_in=576, with_=["webs"])
    without = choose(made, length_in=576, with_=["webs"], one_offs=[gone])
    ours, less = (compute(made, configuration, sha256="") for configuration in (whole, without))
    lost = {joint.id for joint in ours.joints} - {joint.id for joint in less.joints}
    assert lost == {f"H3-{side}-{at}:band:1" for side in "LR" for at in ("tie", "web")} | _at_hoop(ours, "H3-L-web:web:1", "H3-R-web:web:1")
    assert {web.id for web in webs_of(ours)} - {web.id for web in webs_of(less)} == {"H3-L-web:web:1", "H3-R-web:web:1"}


def _at_hoop(doc, *webs):
    return {joint.id for joint in doc.joints if joint.station == "web-top" and joint.holds[0] in webs}


def test_a_tie_moved_to_another_hoop_takes_its_webs_along():
    made = family("g20-b")
    assert not any(ties.webs for ties in made.ties)
    text = changed(('hoops = "inner"', 'hoops = "even inner"'), name="g30-b")
    made = read_family(text, source="g30-b.toml")
    moved = OneOff("move", "H4-tie:tie:1", "olive", "to clear a boom", "2026-03-01", target_2="H5")
    doc = compute(made, choose(made, length_in=576, with_=["webs"], one_offs=[moved]), sha256="")
    assert [tie.hoop for tie in doc.ties] == [2, 6, 8, 10, 12, 5]
    assert Counter(web.id.split("-")[0] for web in webs_of(doc)) == {f"H{n}": 2 for n in (2, 5, 6, 8, 10, 12)}


def test_webs_need_ties():
    with pytest.raises(Refused, match="Webs on the ties needs Collar ties"):
        webbed(48, without=("ties",))


@pytest.mark.parametrize(("old", "new", "said"), [
    ('role = "web"\nfrom_middle', 'role = "webb"\nfrom_middle', 'ties.ties.webs.webb.role = "webb" names no role of this file: did '
     'you mean '
     "web?"),
    ('tie_fitting = "web-tie-band"', 'tie_fitting = "web-band"', 'fittings.web-band.hole_direction = "inward", and it holds webs of '
     'role web: write '
     '"upward".'),
    ('hoop_fitting = "web-band"', 'hoop_fitting = "end-band"', "fittings.end-band.hole_offset is missing, and it holds webs of role "
     "web: write how far "
     "the bolt hole lies from the tube's axis."),
    ('role = "web"\nfrom_middle', 'role = "web"\nflat_width = "1/4 in"\nfrom_middle', "ties.ties.webs.web.flat_hole = 0-0 3/8 leaves "
     "nothing of a flat 0-0 1/4 wide: less than that would do."),
    ('hole_offset = "1 3/8 in"', 'hole_offset = "1/2 in"', "fittings.web-tie-band.hole_offset = 0-0 1/2 lies inside the tube that "
     "it is on: "
     "0-0 11/16 or more would do."),
    ('station = "web-top"', 'station = "web-tip"', 'ties.ties.webs.web.station = "web-tip" names no station of this file: did you mean '
     "web-top?"),
])
def test_what_a_web_says_is_read_strictly(old, new, said):
    assert said in sentences(changed((old, new), name="g30-b"), "g30-b")
