"""Skids and rolling bases: runners with their splices, what holds the feet, and what changes in posts, landings and boards.

Counts and places are plain arithmetic written out here; that a runner is laid of whole sticks from the tag end on, the last
one sawn, is common practice, no source.
"""

import math
from collections import Counter

import pytest

from structures.frame.build import build_frame
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.reader import read_family
from structures.frame.refusal import Refused
from structures.frame.trial import try_out
from tests.structures.family_texts import changed, sentences
from tests.structures.frames import document, family
from tests.structures.full_family import full_document, full_frame


def skid(length_ft, **more):
    made = family("g20-b")
    return compute(made, choose(made, length_in=length_ft * 12, base="skid", **more), sha256="0" * 64)


def roles(doc):
    return Counter(member.role for member in doc.members)


@pytest.mark.parametrize(("feet", "sticks"), [(24, 2), (48, 3), (96, 5), (300, 15)])
def test_each_side_has_whole_sticks_of_21_ft_over_the_length_and_6_in_past_each_end(feet, sticks):
    assert math.ceil((feet + 1) / 21) == sticks
    doc = skid(feet)
    assert roles(doc)["runner"] == 2 * sticks
    for side in ("L", "R"):
        run = [member for member in doc.members if member.role == "runner" and f"-{side}-" in member.id]
        assert (run[0].start[1], run[-1].end[1]) == (-6, feet * 12 + 6)
        assert sum(member.length_in for member in run) == pytest.approx(feet * 12 + 12)
        assert all(a.end == b.start for a, b in zip(run, run[1:], strict=False))
    assert sum(joint.kind == "splice" for joint in doc.joints) == 2 * (sticks - 1)


def test_the_first_stick_and_splice_are_called_by_the_bay_they_lie_in():
    doc = skid(48)
    ids = {member.id for member in doc.members} | {joint.id for joint in doc.joints}
    # 21 ft less the 6 in. before hoop 1 is 20 ft 6 in., in the sixth bay of 4 ft
    assert {"B1-L-runner:runner:1", "B1-R-runner:runner:1", "B6-L-runner:runner:1", "B6-L-runner:splice:1",
            "H3-L-foot:shoe:1"} <= ids


def test_a_skid_has_no_posts_and_a_shoe_at_every_foot():
    doc, fixed = skid(48), document("g20-b", 48)
    assert (roles(fixed)["post"], roles(doc)["post"]) == (26, 0)
    kinds = Counter(joint.kind for joint in doc.joints)
    assert (kinds["shoe"], kinds["bolt"]) == (26, 0)
    sections = {member.id for member in doc.members if member.role == "section"}
    runners = {member.id: member for member in doc.members if member.role == "runner"}
    for joint in doc.joints:
        if joint.kind == "shoe":
            section, runner = joint.holds
            assert section in sections
            assert runners[runner].start[1] <= (joint.hoop - 1) * 48 <= runners[runner].end[1]


def test_nothing_else_of_the_standard_kit_changes_with_the_base():
    ours = {line.part: line.needed for line in skid(48).lines}
    fixed = {line.part: line.needed for line in document("g20-b", 48).lines}
    differ = {part for part in ours | fixed if ours.get(part) != fixed.get(part)}
    assert differ == {"GP190-28", "RN237-21", "RX237", "SH237-166", "BT38-4", "NT38"}
    # 26 shoes with a bolt of each length (the shorter in place of the foot bolt) and two nuts, 4 splices with two of each
    assert (ours["BT38-3"], ours["BT38-4"], ours["NT38"]) == (26, 26 + 2 * 4, 2 * 26 + 2 * 4)


def test_the_hoops_stand_on_the_runner():
    doc = skid(48)
    runner = next(member for member in doc.members if member.role == "runner")
    assert runner.radius_in == pytest.approx(2.375 / 2)
    assert runner.start[0] == -120
    assert runner.start[2] + runner.radius_in == pytest.approx(0)


def test_boards_at_the_foot_are_raised_and_the_hip_board_stays():
    boards = {}
    for base in ("fixed", "skid"):
        made = family("g20-b")
        doc = compute(made, choose(made, length_in=576, base=base, with_=["boards"]), sha256="")
        boards[base] = {bar.kind: bar.z for bar in doc.bars if bar.side == "left" and "board" in bar.kind}
        mark = next(mark for mark in doc.marks if mark.kind == "base-board")
        # a 2 x 8 stands 7 1/4 in. high: its middle is 3 5/8 in. up, and the mark's edge is its lower edge
        assert mark.from_foot_in == pytest.approx(3.625 + (2 if base == "skid" else 0))
        assert mark.edge_in == pytest.approx(mark.from_foot_in - 3.625)
    assert boards["skid"]["base-board"] - boards["fixed"]["base-board"] == pytest.approx(2)
    assert boards["skid"]["hip-board"] == pytest.approx(boards["fixed"]["hip-board"])


def test_a_rolling_base_has_a_wheel_carrier_at_every_foot():
    made = family("g26-d")
    doc = compute(made, choose(made, length_in=864, base="rolling"), sha256="")
    kinds = Counter(joint.kind for joint in doc.joints)
    assert (kinds["wheel"], kinds["shoe"], roles(doc)["post"]) == (38, 0, 0)
    assert next(line for line in doc.lines if line.part == "WH237-190").because[0].words.in_units("us") == "38 wheel carriers at feet"


def test_runner_weight_is_in_the_tube_weight_of_the_whole():
    # 10.69 (D - t) t lb/ft (ASME B36.10M) over six sticks of 21 ft, in place of 26 posts of 2 ft 8 in., 1.90 x 14 ga
    def pounds(diameter, wall, feet):
        return 10.69 * (diameter - wall) * wall * feet
    more = pounds(2.375, 0.095, 6 * 21) - pounds(1.9, 0.083, 26 * 32 / 12)
    assert skid(48).totals.weight_lb - document("g20-b", 48).totals.weight_lb == pytest.approx(more, abs=0.1)


def test_a_landing_lower_than_the_base_allows_is_refused_with_its_height_and_the_least():
    text = changed(('lowest = "7 in"', 'lowest = "9 in"'), name="g20-b")
    made = read_family(text, source="g20-b.toml")
    with pytest.raises(Refused) as refused:
        build_frame(made, choose(made, length_in=576, base="skid"))
    assert [(refusal.code, refusal.field) for refusal in refused.value.refusals] == [("landing-low", "base")]
    assert str(refused.value) == ("On the skid the landing H3-L-foot is too low: it lies 0-8 up from the foot, and 0-9 is the least "
                                  "that would do.")
    build_frame(made, choose(made, length_in=576))


def test_a_family_whose_base_no_brace_can_land_on_is_not_taken():
    with pytest.raises(Refused, match="On the skid the landing H3-L-foot is too low"):
        try_out(read_family(changed(('lowest = "7 in"', 'lowest = "9 in"'), name="g20-b"), source="g20-b.toml"))


def test_a_splice_too_near_a_foot_is_said_with_both_figures():
    text = changed(('past = "6 in"', 'past = "0 in"'), name="g20-b")
    made = read_family(text, source="g20-b.toml")
    said = [str(warning) for warning in build_frame(made, choose(made, length_in=96 * 12, base="skid")).warnings]
    # 84 ft is a whole number of 21 ft sticks and of 4 ft bays: 21 bays, at hoop 22
    assert said == ["The runner has a splice 0-0 from the foot of hoop 22, nearer than 0-4."]


def test_a_base_can_have_posts_beside_its_runner():
    shoe = 'NT38 = 2 }\nwidth = "4 in"'
    text = changed(("posts = false", "posts = true"), (shoe, shoe.replace("4 in", "3 in")), name="g20-b")
    made = read_family(text, source="g20-b.toml")
    members = Counter(m.role for m in build_frame(made, choose(made, length_in=576, base="skid")).members)
    assert (members["post"], members["runner"]) == (26, 6)


@pytest.mark.parametrize(("old", "new", "said"), [
    ('splice = "runner-splice"\n', "", "bases.skid.splice is missing: name the fitting where two of its sticks meet."),
    ('runner = "RN237-21"\n', "", "bases.skid.splice means nothing without a runner: name the runner's part, or leave this line out."),
    ('runner = "RN237-21"', 'runner = "GP190-28"', 'bases.skid.runner = "GP190-28" is a part with the role post: name one with the role '
     "runner, or change parts.GP190-28.role."),
    ("[bases.skid]", "[bases.skied]", "bases.skied is none of the bases in size.bases: did you mean skid?"),
    ('foot = "runner-shoe"', 'foot = "runner-shoo"', 'bases.skid.foot = "runner-shoo" names no fitting of this file: did you mean '
     "runner-shoe?"),
    ('lowest = "7 in"', 'lowest = "low"', 'bases.skid.lowest = "low" is no length: write it like "4ft 6in", "8-11 1/4", "104 3/4 in" or '
     '"2660 mm".'),
])
def test_what_a_base_says_is_read_strictly(old, new, said):
    assert said in sentences(changed((old, new), name="g20-b"), "g20-b")


def test_both_bases_of_the_family_of_everything_stand_at_every_length_of_it():
    for base, kind in (("skid", "shoe"), ("rolling", "wheel")):
        frame = full_frame(96, base)
        assert sum(joint.kind == kind for joint in frame.joints) == 2 * 25
        assert not [warning for warning in full_document(96, base).warnings if "splice" in str(warning)]
