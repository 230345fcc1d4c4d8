"""Brace chains of one tube, clamped to the inside faces of the hoops that they pass."""

import json
import math

import pytest

from inspections.places import walk_of
from structures.frame.build import build_frame
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.document import read_document, write_document
from structures.frame.family import OneOff
from structures.frame.reader import read_family
from structures.frame.refusal import Refused
from structures.frame.trial import try_out
from tests.structures.family_texts import text_of

CHAIN = """code = "roof"
zone = "roof"
option = "roof-braces"
roles = ["roof-long"]
fitting = "long-band"
flat = "9/16 in"
flat_width = "1 1/8 in"
flat_round = "9/16 in"
twist_made = "press"
slack_deg = 10
one_piece = true
pass_fitting = "pass-band"
pass_room = "1/2 in"
landings = [
    { hoop = 1, station = "shoulder" },
    { hoop = 3, station = "high", set = true },
]

"""
FITTINGS = """[fittings.long-band]
name = "long band"
kind = "band"
parts = { BC190 = 1, BT516-1 = 1, NT516 = 1 }
width = "1 1/4 in"
hole_offset = "1 5/8 in"
hole_direction = "inward"
ear = "1/8 in"
head = "7/32 in"

[fittings.pass-band]
name = "pass band"
kind = "band"
parts = { BC190 = 2, BT516-1 = 1, NT516 = 1 }
width = "1 1/4 in"

"""
PART = """[parts.LB26]
name = "Roof brace in one piece, 26 ft"
role = "roof-long"
kind = "tube"
tube = "purlin"
length = "13-6 15/16"
ends = "flattened and drilled both ends"
spacing = "4ft"

"""


def text(*pairs):
    """G26 D with its roof chains in one piece, and single places changed."""
    whole = text_of("g26-d")
    old = whole[whole.index('code = "roof"\nzone'):whole.index("# Ties across the hoops.")]
    for number in ("RL26-L", "RL26-R", "RU26"):
        start = whole.index(f"[parts.{number}]")
        whole = whole[:start] + whole[whole.index("[parts.", start + 1):]
    changes = [(old, CHAIN), ("[fittings.end-band]", FITTINGS + "[fittings.end-band]"), ("[parts.TI26]", PART + "[parts.TI26]"),
               *pairs]
    for before, after in changes:
        assert before in whole, before
        whole = whole.replace(before, after, 1)
    return whole


def family(*pairs):
    return read_family(text(*pairs), source="g26-x.toml")


def built(*pairs):
    made = family(*pairs)
    return build_frame(made, choose(made, length_in=576))


def document(*one_offs):
    made = family()
    return compute(made, choose(made, length_in=576, one_offs=one_offs), sha256="0" * 64)


def longs(doc):
    return [brace for brace in doc.braces if brace.role == "roof-long"]


def sentences(*pairs):
    with pytest.raises(Refused) as caught:
        built(*pairs)
    return [str(refusal).removeprefix("g26-x.toml: ") for refusal in caught.value.refusals]


def test_one_tube_runs_from_the_first_landing_to_the_last_at_each_corner():
    braces = longs(document())
    assert [(b.id, b.corner, b.from_, b.to) for b in braces] == [
        ("B1-L-roof:brace:1", "tag left", "H1-L-shoulder", "H3-L-high"),
        ("B1-R-roof:brace:1", "tag right", "H1-R-shoulder", "H3-R-high"),
        ("B11-L-roof:brace:1", "far left", "H13-L-shoulder", "H11-L-high"),
        ("B11-R-roof:brace:1", "far right", "H13-R-shoulder", "H11-R-high"),
    ]
    for brace in braces:
        assert math.dist(brace.landing_from.hole, brace.landing_to.hole) == pytest.approx(162 + 15 / 16, abs=1e-6)
        assert (brace.set_end, brace.turned_end, brace.reach.end) == ("to", "from", "from")
    assert [b.hand for b in braces] == ["right", "left", "left", "right"]
    assert len({round(abs(b.twist_deg), 6) for b in braces}) == 1


def test_its_holes_lie_inward_of_its_hoops_and_in_their_planes():
    """On the straight roof, pitched 25 degrees, a hole 1 5/8 in. square to the tube lies 1.625 sin 25 in and 1.625 cos 25 down."""
    doc = document()
    high = longs(doc)[1].landing_to
    roof = (doc.measures.ridge_mark_in - high.from_foot_in)
    pitch = math.radians(25)
    x = roof * math.cos(pitch) - 1.625 * math.sin(pitch)
    z = doc.measures.peak_in - roof * math.sin(pitch) - 1.625 * math.cos(pitch)
    assert high.hole == pytest.approx((x, 96, z), abs=1e-3)


def test_it_touches_the_inside_of_the_hoop_it_passes_or_lies_within_the_clamps_room():
    """Where the straight line between its holes crosses the plane of hoop 2, on the roof's straight: its depth under the line of
    the roof, by plain geometry, is from 0.95 + 0.6575 in. to half an inch more; its clamp lies square to it on the hoop."""
    doc = document()
    pitch = math.radians(25)
    for brace in longs(doc):
        (landing,) = brace.passes
        a, b = brace.landing_from.hole, brace.landing_to.hole
        share = ((landing.hoop - 1) * 48 - a[1]) / (b[1] - a[1])
        x, z = (abs(p + (q - p) * share) for p, q in ((a[0], b[0]), (a[2], b[2])))
        depth = (doc.measures.peak_in - z) * math.cos(pitch) - x * math.sin(pitch)
        assert 0.95 + 0.6575 <= depth <= 0.95 + 0.6575 + 0.5
        up_the_roof = x * math.cos(pitch) + (doc.measures.peak_in - z) * math.sin(pitch)
        assert landing.from_foot_in == pytest.approx(doc.measures.ridge_mark_in - up_the_roof, abs=1e-3)
        assert (abs(landing.hole[0]), landing.hole[2]) == pytest.approx((x, z))
        assert landing.hoop in (2, 12)


def test_the_clamp_is_a_joint_that_holds_the_piece_and_the_section():
    doc = document()
    joints = {joint.id: joint for joint in doc.joints}
    sections = {member.id for member in doc.members if member.role == "section"}
    for brace in longs(doc):
        (landing,) = brace.passes
        joint = joints[landing.joint]
        assert (joint.fitting, joint.code) == ("pass-band", f"H{landing.hoop}-{landing.side[0].upper()}-pass")
        assert joint.holds[0] == brace.id
        assert joint.holds[1] in sections
    line = next(line for line in doc.lines if line.part == "BC190")
    reasons = {because.words.values["what"]: because.count for because in line.because if because.kind == "roof-long"}
    assert reasons == {"long bands at roof long": 8, "pass bands at roof long": 8}
    assert [(mark.hoops, mark.side) for mark in doc.marks if mark.code == "pass"] == [((2, 12), "both")]
    assert sum(place.id == "H2-L-pass:band:1" for stretch in walk_of(doc) for place in stretch.places) == 1


def test_its_flat_end_lies_against_the_hoops_inside_with_half_its_thickness_toward_it():
    """The hole 1 5/8 in. from the axis of a 1.900 in. hoop, the flat two walls of 0.058 in. thick: 1.625 - 0.95 - 0.058. A tie's
    stands on edge there, rounded 9/16 in. about its hole: 1.625 - 0.95 - 0.5625."""
    doc = document()
    assert [brace.gaps["own hoop"] for brace in longs(doc)] == pytest.approx([0.617] * 4)
    assert [tie.gaps["own hoop"] for tie in doc.ties] == pytest.approx([0.1125] * len(doc.ties))


BAND = 'name = "long band"\nkind = "band"\nparts = { BC190 = 1, BT516-1 = 1, NT516 = 1 }\nwidth = "1 1/4 in"\nhole_offset = '


@pytest.mark.parametrize(
    ("offset", "said"),
    [
        ("1 1/16 in", ""),         # 0.95 and a wall of 0.058 in. are 1.008
        ("1 in", "fittings.long-band.hole_offset = 0-1 is less than the hoop's radius and the flattened end of chain roof together: "
                 "0-1 1/16 or more would do."),
    ],
)
def test_its_hole_may_lie_as_near_as_its_flat_end_lets_it(offset, said):
    def wrong():
        try:
            family((BAND + '"1 5/8 in"', BAND + f'"{offset}"'))
        except Refused as refused:
            return "\n".join(str(refusal).removeprefix("g26-x.toml: ") for refusal in refused.refusals)
        return ""

    assert wrong() == said


def test_it_is_written_and_read_back():
    doc = document()
    assert read_document(json.dumps(write_document(doc))).braces[0].passes == ()
    back = [b.passes[0].joint for b in longs(read_document(json.dumps(write_document(doc))))]
    assert back == [b.passes[0].joint for b in longs(doc)]


def test_the_family_can_be_built_in_all_its_ways():
    try_out(family())


def test_too_far_in_for_its_clamp_is_refused_with_figures_that_would_do():
    said = sentences(('pass_room = "1/2 in"', 'pass_room = "1/4 in"'))
    assert said == [
        "The roof brace in one piece passes H2-L-pass with its axis 0-2 1/16 inside the hoop's, and its clamp holds it from 0-1 5/8 to "
        "0-1 13/16: chains.roof.pass_room = 0-0 7/16 would do, or a piece for each bay."
    ]
    assert built(('pass_room = "1/2 in"', 'pass_room = "7/16 in"')).braces


STRAIGHT = (('{ hoop = 1, station = "shoulder" }', '{ hoop = 1, station = "low" }'),
            ('roof = "half way', 'low = "13-0"\nroof = "half way'), ('length = "13-6 15/16"', 'length = "10-6 1/4"'))


def test_too_near_the_hoop_is_refused_with_a_hole_that_would_do():
    """Both ends on the straight roof, so the tube is as deep as its holes: 1 9/16 is less than 0.95 + 0.6575."""
    said = sentences(*STRAIGHT, (BAND + '"1 5/8 in"', BAND + '"1 9/16 in"'))
    assert said == [
        "The roof brace in one piece passes H2-L-pass with its axis 0-1 9/16 inside the hoop's, and its clamp holds it from 0-1 5/8 to "
        "0-2 1/16: fittings.long-band.hole_offset = 0-1 5/8 would do."
    ]
    assert built(*STRAIGHT).braces


@pytest.mark.parametrize(("pairs", "said"), [
    pytest.param(
        [('{ hoop = 3, station = "high", set = true }', '{ hoop = 2, station = "high", set = true }')],
        "chains.roof.landings goes over hoops 1, 2, and one_piece = true: name its two ends, with at least one hoop between that it "
        "passes.", id="it passes no hoop"),
    pytest.param(
        [('{ hoop = 1, station = "shoulder" },', '{ hoop = 1, station = "shoulder" },\n    { hoop = 2, station = "roof" },')],
        "chains.roof.landings goes over hoops 1, 2, 3, and one_piece = true: name its two ends, with at least one hoop between that it "
        "passes.", id="a landing between"),
    pytest.param(
        [('roles = ["roof-long"]', 'roles = ["roof-long", "roof-long"]')],
        'chains.roof.roles = ["roof-long", "roof-long"], and one_piece = true: name one role.', id="two roles"),
    pytest.param(
        [('pass_fitting = "pass-band"\n', "")],
        "chains.roof.pass_fitting is missing: name the fitting that clamps the piece to the hoops it passes.", id="no clamp"),
    pytest.param(
        [('pass_fitting = "pass-band"', 'pass_fitting = "pas-band"')],
        'chains.roof.pass_fitting = "pas-band" names no fitting of this file: did you mean pass-band?', id="a clamp nobody knows"),
    pytest.param(
        [('fitting = "long-band"', 'fitting = "brace-band"')],
        'chains.side.fitting = "brace-band" is the fitting of chain side and chain roof: a brace\'s hole lies lengthwise and a tie\'s '
        "and a one-piece brace's inward, so give each a fitting of its own.", id="a band whose hole lies lengthwise"),
    pytest.param(
        [('zone = "side"\n', 'zone = "side"\npass_room = "1/2 in"\n')],
        'chains.side.pass_room = "1/2 in" is for a chain in one piece: write one_piece = true, or leave this line out.',
        id="room for a chain in pieces"),
    pytest.param(
        [('flat_hole = "11/32 in"', 'flat_hole = "1 1/8 in"')],
        "chains.side.flat_hole = 0-1 1/8 leaves nothing of a flat 0-1 1/8 wide: less than that would do.", id="a hole as wide as its flat"),
])
def test_the_reader_says_what_is_wrong_and_what_would_do(pairs, said):
    assert said in sentences(*pairs)


def test_two_of_them_share_no_bay():
    made = family(('shortest = "24ft"', 'shortest = "8ft"'))
    with pytest.raises(Refused) as caught:
        build_frame(made, choose(made, length_in=144, without={"side-braces"}))
    assert str(caught.value.refusals[0]) == (
        "The roof braces from both ends would share bay 2 at 4 hoops: at least 5 hoops are needed, which is 16-0."
    )


def one_off(act, target, **more):
    return OneOff(act, target, "Olive Barrow", "the customer's door stands there", "2026-03-01", **more)


def test_left_out_it_takes_its_clamps_with_it():
    doc = document(one_off("leave out", "B1-L-roof:brace:1"))
    assert {joint.code for joint in doc.joints} & {"H1-L-shoulder", "H2-L-pass", "H3-L-high"} == set()


def test_moved_it_is_clamped_where_it_comes_to_lie():
    doc = document(one_off("move", "B1-L-roof:brace:1", by_in=3.0))
    moved, other = (next(b for b in longs(doc) if b.id == f"B1-{side}-roof:brace:1") for side in "LR")
    assert moved.landing_to.from_foot_in == pytest.approx(other.landing_to.from_foot_in + 3)
    assert moved.passes[0].from_foot_in > other.passes[0].from_foot_in + 2
    assert (moved.from_, moved.to, moved.set_end, moved.hand) == ("H1-L-shoulder", "H3-L-high", "to", "right")
    assert moved.reach is not None
    assert moved.tail_from is not None
