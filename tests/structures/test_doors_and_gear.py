"""Doors, end-wall uprights, boards and channel as things in the way, roll-up sides, anchors and a blower.

Counts and places are plain arithmetic written out here.
"""

import math
from collections import Counter

import pytest

from structures.frame.build import build_frame
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.document import read_document, write_document
from structures.frame.reader import read_family
from structures.frame.refusal import Refused
from tests.structures.family_texts import changed, sentences
from tests.structures.frames import document, family
from tests.structures.full_family import every_option, full_document, full_family, full_frame

HOOP, PIPE = 0.95, 1.315 / 2      # radii of a 1.90 hoop and a 1.315 pipe


def g26(feet=72, with_=(), ends=("framed", "framed"), base="fixed"):
    made = family("g26-d")
    return compute(made, choose(made, length_in=feet * 12, with_=with_, ends=ends, base=base), sha256="0" * 64)


def count(doc, part):
    return next((line.needed for line in doc.lines if line.part == part), 0)


# doors and uprights

def test_a_framed_wall_has_its_uprights_from_the_ground_to_the_hoop_and_none_in_the_kit():
    doc = g26()
    posts = [box for box in doc.boxes if box.kind == "post"]
    assert [box.id for box in posts] == [f"E{end}-post:post:{n}" for end in (1, 2) for n in (1, 2, 3, 4)]
    assert sorted({(round(box.low[0], 3), round(box.high[0], 3)) for box in posts}) == [
        (-96.75, -95.25), (-48.75, -47.25), (47.25, 48.75), (95.25, 96.75)]
    for box in posts:
        outer = max(abs(box.low[0]), abs(box.high[0]))
        # the roof is straight at 25 degrees there: its axis by the peak, its underside the radius less, measured plumb
        axis = 158.968 - outer * math.tan(math.radians(25))
        assert (box.low[2], box.high[2]) == (0, pytest.approx(axis - HOOP / math.cos(math.radians(25)), abs=0.01))
    assert {(box.low[1], box.high[1]) for box in posts} == {(-1.75, 1.75), (864 - 1.75, 864 + 1.75)}
    assert count(doc, "UB14") == len(posts)


def test_a_double_door_hangs_between_the_inner_uprights_and_swings_out_at_both_ends():
    doc = g26(ends=("door", "door"))
    leaves = [box for box in doc.boxes if box.kind == "leaf"]
    assert [(box.low[0], box.high[0], box.high[2]) for box in leaves] == [(-47, 0, 84), (0, 47, 84)] * 2
    # 4 ft less half of 1 1/2 in. of post is 47 1/4 in.: a quarter of an inch of play each side
    assert [(s.x, s.y, s.radius_in, s.closed, s.opens) for s in doc.swings] == [
        (-47, -1.75, 47, 1, -1), (47, -1.75, 47, -1, -1), (-47, 865.75, 47, 1, 1), (47, 865.75, 47, -1, 1)]
    headers = [box for box in doc.boxes if box.kind == "header"]
    assert [(box.low[2], box.high[2]) for box in headers] == [(84, 87.5)] * 2
    assert [joint.id for joint in doc.joints if joint.kind == "door"] == ["E1-door:door:1", "E2-door:door:1"]
    assert count(doc, "DD94-84") == 2


def test_a_door_adds_itself_and_its_screws_to_the_kit_and_nothing_else():
    ours, plain = ({line.part: line.needed for line in g26(ends=ends).lines} for ends in (("door", "framed"), ("framed", "framed")))
    assert {part: ours[part] - plain.get(part, 0) for part in ours if ours[part] != plain.get(part, 0)} == {"DD94-84": 1, "SC14": 24}


def test_a_single_leaf_is_hung_at_the_left_and_a_sliding_one_hangs_outside():
    frame = full_frame(48, "skid", ("inward", "sliding"))
    (swing,) = frame.swings
    assert (swing.x, swing.y, swing.radius_in, swing.closed, swing.opens) == (-21, 1.75, 42, 1, 1)
    leaf_in, leaf_out = (box for box in frame.boxes if box.kind == "leaf")
    assert (leaf_in.low[1], leaf_in.high[1]) == (0.25, 1.75)
    assert (leaf_out.low[1], leaf_out.high[1]) == (576 + 1.75, 576 + 3.25)


def test_a_door_is_in_when_its_option_is():
    text = changed(('opens = "out"\n', 'opens = "out"\noption = "our-door"\n'),
                   ('[[options]]\ncode = "side-braces"', '[[options]]\ncode = "our-door"\nname = "Our door"\noffer = "optional"\n\n'
                    '[[options]]\ncode = "side-braces"'))
    made = read_family(text, source="g26-d.toml")
    found = []
    for with_ in ((), ("our-door",)):
        frame = build_frame(made, choose(made, length_in=576, ends=("door", "door"), with_=with_))
        found.append((sum(joint.kind == "door" for joint in frame.joints), len(frame.swings)))
    assert found == [(0, 0), (2, 4)]


def test_a_door_higher_than_the_hoop_leaves_room_for_is_refused_with_what_would_do():
    made = read_family(changed(('height = "7-0"', 'height = "12-0"')), source="g26-d.toml")
    with pytest.raises(Refused) as refused:
        build_frame(made, choose(made, length_in=576, ends=("door", "framed")))
    # 47 in. from the middle: 158.968 - 47 tan 25 - 0.95 / cos 25 - 3.5 of header = 132.50
    assert str(refused.value) == ("The door of the framed end wall with a door is 12-0 high, and with its header the hoop leaves room "
                                  "for 11-0 1/2: that or less would do.")


@pytest.mark.parametrize(("old", "new", "said"), [
    ('width = "7-10"', 'width = "8-0"', "end_walls.door.door.width = 8-0, and between the two innermost uprights there is 7-10 1/2: that "
     "or less would do."),
    ('opens = "out"', 'opens = "up"', 'end_walls.door.door.opens = "up" is none of out, in, slide: one of them would do.'),
    ('leaves = 2', 'leaves = 3', "end_walls.door.door.leaves = 3 is no whole number that can be here: write a whole number from 1 to 2."),
    ('opens = "out"\nfitting = "door"', 'opens = "out"\nfitting = "dor"', 'end_walls.door.door.fitting = "dor" names no fitting of '
     'this file: '
     "did you mean door?"),
    ('post_deep = "3 1/2 in"\n', "", "end_walls.framed.post_deep is missing: write the other side of the upright's section too."),
])
def test_what_a_door_says_is_read_strictly(old, new, said):
    assert said in sentences(changed((old, new)))


def test_a_door_needs_uprights_with_a_section_and_none_in_its_middle():
    text = changed(('# The same with a door', '# A door'))
    door = text.index("[end_walls.door]")
    def said(old, new):
        return sentences(text[:door] + text[door:].replace(old, new, 1))
    assert "end_walls.door.uprights is missing: a door hangs between two of them." in said('uprights = ["4ft", "8ft"]\n', "")
    assert "end_walls.door.uprights puts one in the middle of the door: leave that one out." in said('["4ft", "8ft"]', '["0 in", "4ft"]')
    assert "end_walls.door.post_wide is missing: a door is measured between its posts." in said(
        'post_wide = "1 1/2 in"\npost_deep = "3 1/2 in"\n', "")


# channel and boards

def test_boards_are_laid_stick_by_stick_on_each_side_with_a_splice_where_two_meet():
    doc = g26(80, ("boards",))
    # 80 ft of 12 ft boards: six whole ones and 8 ft, on each of two sides at hip and foot
    boards = [member for member in doc.members if member.role == "board"]
    assert Counter((m.part, m.length_in) for m in boards) == {
        ("HB12", 144): 12, ("HB12", 96): 2, ("BB12", 144): 12, ("BB12", 96): 2}
    assert (count(doc, "HB12"), count(doc, "BB12"), count(doc, "BS12")) == (14, 14, 24)
    ids = {member.id for member in boards} | {joint.id for joint in doc.joints}
    # the second board begins at hoop 4, 12 ft along
    assert {"B1-L-hip:board:1", "B4-R-foot:board:1", "B4-L-hip:splice:1"} <= ids


def test_boards_do_not_rename_the_bays_that_are_looked_at():
    doc = g26(72, ("boards",))
    bays = {panel.id for panel in doc.panels if panel.kind == "hip-board"}
    assert bays == {f"B{bay}-{side}-hip:hip-board:1" for bay in range(1, 19) for side in "LR"}


def test_pieces_count_boards_where_there_are_some_and_the_tube_weight_does_not():
    plain, boarded = g26(), g26(72, ("boards",))
    assert boarded.totals.pieces - plain.totals.pieces == 4 * 6
    assert boarded.totals.weight_lb == plain.totals.weight_lb


@pytest.mark.parametrize("with_", [(), ("boards",)])
def test_channel_at_the_hip_lies_on_the_hoops_or_on_the_board(with_):
    doc = g26(72, with_)
    left = next(bar for bar in doc.bars if bar.kind == "channel" and bar.id == "L-hip:channel")
    # the hip lies 4-6 along the tube, past the 4 ft leg: 6 in. into the arc of 5 ft radius
    turned = 6 / 60
    out = HOOP + 0.25 + (1.5 if with_ else 0)
    x, z = 156 - 60 * (1 - math.cos(turned)), 48 + 60 * math.sin(turned)
    assert (left.x, left.z) == (pytest.approx(-(x + out * math.cos(turned))), pytest.approx(z + out * math.sin(turned)))
    assert (left.along_x, left.along_z) == (pytest.approx(math.sin(turned)), pytest.approx(math.cos(turned)))
    assert (left.y0, left.y1, left.wide_in, left.thick_in) == (0, 864, 1.25, 0.5)


def test_boards_stand_clear_of_the_bands_beside_them():
    """The lower edge of the hip board is above the band 3 in. below the hip, the base board's upper edge below the band 8 in. up."""
    doc = g26(72, ("boards",))
    marks = {mark.kind: mark for mark in doc.marks if "board" in mark.kind}
    hip, base = marks["hip-board"], marks["base-board"]
    lower_edge, upper_edge = hip.from_foot_in - 5.5 / 2, base.from_foot_in + 7.25 / 2
    assert (lower_edge, upper_edge) == (pytest.approx(54 + 1.5 - 2.75), pytest.approx(7.25))
    assert lower_edge > 51 + 1.25 / 2
    assert upper_edge < 8 - 1.25 / 2


def test_channel_over_an_end_hoop_is_told_as_straight_bars_on_its_outside():
    doc = g26()
    bars = [bar for bar in doc.bars if bar.kind == "channel" and bar.id.startswith("H1-L-")]
    assert [bar.id for bar in bars] == [f"H1-L-{n}:channel" for n in range(1, len(bars) + 1)]
    # straight leg, an arc of 5 ft, straight roof: half the tube outside, (R + out) instead of R round the bend
    out = HOOP + 0.25
    whole = 499.941 / 2 + out * math.radians(65)
    assert sum(bar.wide_in for bar in bars) == pytest.approx(whole, abs=0.1)
    assert all((bar.y0, bar.y1) == (-0.625, 0.625) for bar in bars)
    for bar in bars:
        assert math.hypot(bar.along_x, bar.along_z) == pytest.approx(1)
    assert sum(bar.id.startswith(f"H{19}-") for bar in doc.bars) == 2 * len(bars)


def test_nothing_of_the_demo_families_touches_a_board_channel_post_or_door_by_design():
    for name, length in (("r14-a", 40), ("g20-b", 48), ("g26-d", 72), ("g30-b", 96)):
        made = family(name)
        doc = compute(made, choose(made, length_in=length * 12, with_=("boards", "roll-up", "film"), ends=("door", "door")), sha256="")
        gaps = [(kind, gap) for brace in doc.braces for kind, gap in brace.gaps.items() if kind in ("board", "channel", "post", "door")]
        assert {kind for kind, _ in gaps} >= {"board", "channel", "post"}
        # the least is a piece level with the hoop's axis beside a board on the hoops: R - r
        radius = made.tubes["hoop"].radius_in
        assert min(gap for _, gap in gaps) >= radius - PIPE - 1e-6


# gear

def test_roll_up_sides_are_a_pipe_in_sticks_clips_ropes_and_a_crank_each_side():
    doc = g26(72, ("roll-up",))
    # 72 ft: seven pipes of 10 ft and 2 ft on each side, a clip every 2 ft and one more, a rope each bay and side
    assert (count(doc, "RP131-10"), count(doc, "RS131"), count(doc, "RC131")) == (16, 14, 2 * 37)
    assert (count(doc, "RR14"), count(doc, "EY14"), count(doc, "RK131")) == (36, 72, 2)
    ids = {piece.id for piece in doc.pieces()} | {joint.id for joint in doc.joints}
    # the second pipe begins 10 ft along, in bay 3
    assert {"B1-L-roll:roll-pipe:1", "B3-R-roll:roll-pipe:1", "B3-L-roll:splice:1", "B2-L-roll:rope:1", "H1-L-roll:crank:1"} <= ids
    assert not any(joint.id.startswith("H19-L-roll") for joint in doc.joints)
    # what hangs in the film has no mark on a hoop and no bay to look at
    assert not any(mark.kind == "roll-pipe" for mark in doc.marks)
    assert not any(panel.kind == "roll-pipe" for panel in doc.panels)
    assert sum(bar.kind == "roll-pipe" for bar in doc.bars) == 2


def test_the_roll_up_pipe_hangs_outside_the_hoops_or_the_base_board():
    for with_, more in (((), 0.0), (("boards",), 1.5)):
        made = family("g26-d")
        doc = compute(made, choose(made, length_in=864, with_=("roll-up", *with_)), sha256="")
        pipe = next(member for member in doc.members if member.role == "roll-pipe" and "-R-" in member.id)
        assert pipe.start[0] == pytest.approx(156 + HOOP + more + PIPE)
        assert (pipe.start[2], pipe.radius_in) == (pytest.approx(10), pytest.approx(PIPE))


@pytest.mark.parametrize(("feet", "hoops"), [(24, [1, 5, 7]), (48, [1, 5, 9, 13]), (72, [1, 5, 9, 13, 17, 19])])
def test_anchors_stand_at_every_fourth_hoop_and_the_last_on_both_sides(feet, hoops):
    doc = g26(feet, ("anchors",))
    anchors = [joint for joint in doc.joints if joint.kind == "anchor"]
    assert [joint.id for joint in anchors] == [f"H{n}-{side}-foot:anchor:1" for n in hoops for side in "LR"]
    assert count(doc, "GA30") == 2 * len(hoops)
    because = next(line for line in doc.lines if line.part == "GA30").because
    assert because[0].where == tuple(joint.id for joint in anchors)


def test_double_film_is_a_second_sheet_of_the_same_size_and_one_blower():
    single, double = g26(72, ("film",)), g26(72, ("film", "double-film"))
    assert (count(single, "FR44-100"), count(double, "FR44-100"), count(double, "BL60")) == (1, 2, 1)
    assert [joint.id for joint in double.joints if joint.kind == "blower"] == ["E1-blower:blower:1"]
    inner = {panel.id for panel in double.panels if panel.kind == "film"} - {panel.id for panel in single.panels}
    assert inner == {panel.id.replace("film:1", "film:2") for panel in single.panels if panel.kind == "film"}


def test_double_film_needs_film():
    with pytest.raises(Refused, match="Double film with a blower needs Film: choose Film too, or leave Double film with a blower out"):
        g26(72, ("double-film",))


def test_a_standard_kit_has_none_of_it():
    roles = {line.role for line in document("g26-d", 72).lines}
    assert not roles & {"board", "roll-pipe", "crank", "rope", "anchor", "door", "blower", "runner", "web", "splice", "clip"}


def test_an_option_says_how_many_pieces_it_would_bring():
    options = {option.code: option for option in document("g26-d", 72).options}
    # 72 ft: six boards a side at hip and foot; eight pipes a side
    assert (options["boards"].pieces, options["roll-up"].pieces, options["anchors"].pieces) == (24, 16, 0)


# what the file may say

@pytest.mark.parametrize(("old", "new", "said"), [
    ('role = "board"\nsplice = "board-splice"', 'splice = "board-splice"', "strips.hip-board.role is missing: a strip with a splice "
     "is laid "
     'stick by stick: say what a stick of it is, like "board".'),
    ('role = "board"\nsplice = "board-splice"', 'role = "board"', "strips.hip-board.splice is missing: a strip whose sticks have a role is "
     "laid stick by stick: name the fitting where two meet."),
    ('wide = "5 1/2 in"\n', "", "strips.hip-board.wide is missing: write both sides of its section."),
    ('role = "board"\nsplice = "board-splice"', 'role = "hip-board"\nsplice = "board-splice"', 'strips.hip-board.role = "hip-board" is the '
     "strip's own code, by which its bays are called: give its sticks another word."),
    ('on = "hip-board"', 'on = "hop-board"', 'strips.channel.on = "hop-board" names no strip of this file: did you mean hip-board?'),
    ('middle = "hip + 1 1/2 in"', 'middle = "hop + 1 1/2 in"', 'strips.hip-board.middle = "hop + 1 1/2 in" goes by way of hop, which is no '
     "station: did you mean hip?"),
    ('run = "end hoops"', 'run = "end hoops"\nlies = "inside"', "strips.channel.lies means nothing on the end hoops: it is for a "
     "strip along "
     "the sides, so leave it out."),
    ('where = "bays"', 'where = "bays"\nevery = 2', 'fixtures.rope.every counts hoops, and this fixture goes to bays: leave it out, '
     'or write '
     'where = "feet".'),
    ('where = "sides"', 'where = "side"', 'fixtures.crank.where = "side" is none of feet, corners, sides, bays, end wall: '
     'did you mean sides?'),
    ('code = "anchor"\nname', 'code = "rope"\nname', 'fixtures.rope.code = "rope" stands twice: give each entry its own code.'),
    ('fitting = "crank"', 'fitting = "krank"', 'fixtures.crank.fitting = "krank" names no fitting of this file: did you mean crank?'),
])
def test_what_strips_and_fixtures_say_is_read_strictly(old, new, said):
    assert said in sentences(changed((old, new)))


def test_a_part_says_what_it_is_driven_with_and_the_kit_passes_it_on():
    tools = {line.part: line.tool for line in full_document().lines if line.tool}
    assert tools == {"BT516-1": "1/2 in. spanner", "BT516-2": "1/2 in. spanner", "NT516": "1/2 in. spanner", "BT38-3": "9/16 in. spanner",
                     "BT38-4": "9/16 in. spanner", "NT38": "9/16 in. spanner", "SC14": "5/16 in. nut driver"}


def test_everything_at_once_reads_back_from_json_as_itself():
    doc = full_document()
    assert write_document(read_document(write_document(doc))) == write_document(doc)


@pytest.mark.parametrize("base", ["fixed", "skid", "rolling"])
@pytest.mark.parametrize("ends", [("open", "open"), ("door", "sliding"), ("inward", "framed")])
def test_every_count_of_everything_is_the_sum_of_its_reasons_and_every_place_stands_once(base, ends):
    doc = compute(full_family(), every_option(56, base, ends), sha256="")
    for line in doc.lines:
        assert line.needed == sum(because.count for because in line.because)
        assert all(because.count == because.per * len(because.where) for because in line.because if because.where)
    ids = [piece.id for piece in doc.pieces()] + [joint.id for joint in doc.joints] + [panel.id for panel in doc.panels]
    assert len(ids) == len(set(ids))
    pieces = {piece.id for piece in doc.pieces()}
    assert all(held in pieces for joint in doc.joints for held in joint.holds)
