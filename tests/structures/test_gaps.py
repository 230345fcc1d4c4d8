"""Gaps: who is near to whom, what touches by design, what is refused, and that long structures cost no more a bay."""

import dataclasses
import math

import pytest

from structures.frame.build import build_frame, put_together
from structures.frame.build.gaps import measure as measuring
from structures.frame.build.gaps import measure_gaps
from structures.frame.build.gaps.around import Around
from structures.frame.build.gaps.rods import pieces_of, runs_of
from structures.frame.choose import choose
from structures.frame.document import Bar, Box, Swing
from structures.frame.vectors import along, point_nearest, segment_nearest
from tests.structures.families import NAMES, document, fullest, shortest_and_longest
from tests.structures.frames import family
from tests.structures.full_families import everything

BRACE_RADIUS = 1.315 / 2
BRACED = [name for name in NAMES if family(name).chains]


def together(name="g26-d", length_in=288, **more):
    made = family(name)
    return put_together(made, dataclasses.replace(choose(made, length_in=length_in), ends=("open", "open"), **more))


def measured(frame):
    measure_gaps(frame)
    return frame


def sentences(frame):
    return [str(refusal) for refusal in measured(frame).refusals]


# What is refused, and how deep it says the two lie in one another. Ties of G26 are 1.315 in. tubes, at y = 48 on hoop 2.
TIE = "H2-tie:tie:1"


def tie_height(frame):
    return next(tie for tie in frame.ties if tie.id == TIE).landing_from.hole[2]


def test_a_frame_with_nothing_in_its_way_is_refused_nothing():
    assert sentences(together()) == []


def test_a_tie_through_a_post_is_refused_naming_both_and_the_overlap():
    frame = together()
    frame.boxes.append(Box("E1-post:post:9", "post", "end-wall post", (-2, 45, 0), (2, 51, 200)))
    # The axis runs through the post's middle: 2 in. to its nearest face and 0.6575 more, rounded up to sixteenths.
    assert f"{TIE} runs through the end-wall post (E1-post:post:9) by 2 11/16 in.: move a landing so that they clear." in sentences(frame)


def test_a_tie_through_a_door_is_refused_whether_it_is_shut_or_swings():
    frame = together()
    z = tie_height(frame)
    frame.boxes.append(Box("E1-door:leaf:1", "leaf", "door leaf", (-20, 47, 0), (20, 49, z - 0.5)))
    frame.swings.append(Swing("E2-door:swing:1", "door leaf", 30.0, 48.0, 40.0, -1, 1, 0.0, z - 0.25))
    found = sentences(frame)
    # Both are one kind of thing, and the nearer one is named: 0.25 in. below the axis, 0.6575 - 0.25 into the tube.
    assert f"{TIE} runs through the door leaf (E2-door:swing:1) by 7/16 in.: move a landing so that they clear." in found
    assert not any("E1-door" in sentence for sentence in found)


def test_a_purlin_through_a_header_is_refused_with_a_remedy_that_it_has():
    frame = together()
    run = next(member for member in frame.members if member.id.startswith("B1-R-purlin"))
    x, _, z = run.start
    frame.boxes.append(Box("E1-header:header:1", "header", "door header", (x - 30, -2, z - 4), (x + 30, 2, z)))
    # The axis lies on the header's upper face.
    assert "the side purlin runs through the door header (E1-header:header:1) by 11/16 in.: move one of them so that they clear." in (
        sentences(frame))


def test_a_brace_through_a_board_is_refused_at_its_own_side_only():
    frame = together()
    brace = next(brace for brace in frame.braces if brace.id == "B1-R-side:brace:1")
    x, _, z = along(brace.landing_from.hole, brace.landing_to.hole, 0.5)
    # On edge, 5.5 in. wide and 1.5 thick, its inner face 0.5 in. inside the brace's axis.
    frame.bars.append(Bar("R-hip:hip-board", "hip-board", "hip board", "right", x + 0.25, z, 0.0, 1.0, 5.5, 1.5, 0.0, 288.0))
    assert [sentence for sentence in sentences(frame) if "-L-" in sentence] == []
    found = [sentence for sentence in sentences(frame) if sentence.startswith(brace.id)]
    assert found[0] == (f"{brace.id} runs through the hip board (R-hip:hip-board) by 1 3/16 in.: "
                        "move a landing so that they clear.")


def test_a_piece_through_another_piece_is_refused_naming_both():
    frame = together()
    tie = next(tie for tie in frame.ties if tie.id == TIE)
    lower = tuple(dataclasses.replace(end, hole=(end.hole[0], end.hole[1], end.hole[2] - 1)) for end in (tie.landing_from, tie.landing_to))
    frame.ties.append(dataclasses.replace(tie, id="H2-tie:tie:2", landing_from=lower[0], landing_to=lower[1]))
    # Two tubes of 1.315 with their axes 1 in. apart.
    assert sentences(frame)[:2] == [
        "H2-tie:tie:1 runs through H2-tie:tie:2 by 3/8 in.: move a landing so that they clear.",
        "H2-tie:tie:2 runs through H2-tie:tie:1 by 3/8 in.: move a landing so that they clear.",
    ]


def test_a_piece_outside_its_hoops_runs_through_the_film_line():
    frame = together()
    tie = frame.ties[0]
    high = tuple(dataclasses.replace(end, hole=(end.hole[0], end.hole[1], end.hole[2] + 60)) for end in (tie.landing_from, tie.landing_to))
    frame.ties[0] = dataclasses.replace(tie, landing_from=high[0], landing_to=high[1])
    assert any(sentence.startswith(f"{tie.id} runs through the film line by ") for sentence in sentences(frame))


# What is measured, and from where to where.


def test_gaps_to_boards_posts_and_doors_are_what_plain_arithmetic_says():
    frame = together()
    z = tie_height(frame)
    frame.boxes.append(Box("E1-post:post:9", "post", "end-wall post", (-2, 52, 0), (2, 56, 200)))
    frame.boxes.append(Box("E1-door:leaf:1", "leaf", "door leaf", (-20, 40, 0), (20, 42, z - 8)))
    frame.bars.append(Bar("L-hip:hip-board", "hip-board", "hip board", "left", 0.0, z + 10, 1.0, 0.0, 5.5, 1.5, 0.0, 288.0))
    tie = next(tie for tie in measured(frame).ties if tie.id == TIE)
    assert tie.gaps["post"] == pytest.approx(4 - BRACE_RADIUS)
    assert tie.gaps["door"] == pytest.approx(10 - BRACE_RADIUS)            # 6 before it, 8 below: 6-8-10
    assert tie.gaps["board"] == pytest.approx(10 - 0.75 - BRACE_RADIUS)
    assert tie.clearance_in == min(tie.gaps.values())


def test_a_brace_is_measured_against_the_post_that_stands_round_its_leg_and_not_against_one_inside_it():
    """R14's braces are bolted 1 1/2 in. from the leg's axis and 8 in. up; its posts, 1.9 in. thick, stand 6 in. up. From the hole the
    brace goes up and away: 1.5 - 0.95 in. beside the post and 2 above it, less its own radius."""
    frame = measured(together("r14-a", 480))
    low = next(brace for brace in frame.braces if brace.landing_to.code == "H3-L-foot")
    assert low.landing_to.from_foot_in == pytest.approx(8)
    assert low.gaps["ground post"] == pytest.approx(math.hypot(1.5 - 0.95, 2) - BRACE_RADIUS, abs=1e-6)
    assert not any("ground post" in brace.gaps for brace in measured(together("g26-d", 480)).braces)
    kinds = {tight.kind: tight.near for tight in frame.tight}
    assert kinds["ground post"] == "H3-L-foot:post:1"


def test_a_strip_that_the_family_does_not_know_goes_by_its_own_word():
    frame = together()
    frame.bars.append(Bar("L-foot:skirt", "skirt", "skirt", "left", 0.0, 20.0, 1.0, 0.0, 5.5, 1.5, 0.0, 288.0))
    assert "skirt" in next(tie for tie in measured(frame).ties if tie.id == TIE).gaps


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("which", [0, 1], ids=["short", "long"])
def test_no_piece_of_a_demo_family_with_everything_runs_through_another(name, which):
    doc = document(name, shortest_and_longest(family(name))[which], "fullest")
    for piece in (*doc.braces, *doc.ties):
        assert piece.clearance_in == min(piece.gaps.values()) > 0
        assert {"film", "own hoop", "hoop", "purlin"} <= set(piece.gaps)


@pytest.mark.parametrize("name", BRACED)
def test_no_neighbour_within_a_bay_is_overlooked(name):
    """Every piece against every other one of the frame, whatever hoops they lie between."""
    doc = document(name, shortest_and_longest(family(name))[1], "fullest")
    radii = {piece.id: doc.tubes[piece.role] / 2 for piece in (*doc.braces, *doc.ties)}
    braces, ties = list(doc.braces), list(doc.ties)
    for kind, others in (("brace", braces), ("tie", ties)):
        for piece in (*braces, *ties[:12]):
            least = min(
                (segment_nearest(piece.landing_from.hole, piece.landing_to.hole, other.landing_from.hole, other.landing_to.hole)[0]
                 - radii[piece.id] - radii[other.id] for other in others if other.id != piece.id), default=1e9)
            if least < doc.measures.spacing_in - 2:
                assert piece.gaps[kind] == pytest.approx(least, abs=1e-6)


@pytest.mark.parametrize("name", BRACED)
def test_mirrored_corners_have_equal_gaps(name):
    doc = document(name, shortest_and_longest(family(name))[0], "fullest")
    by_side = {side: sorted((brace.role, round(brace.clearance_in, 5)) for brace in doc.braces if brace.landing_from.side == side)
               for side in ("left", "right")}
    assert by_side["left"] == by_side["right"] != []


# What touches by design is no gap.


def full_frame(bays=12):
    made = everything()
    return build_frame(made, fullest(made, bays * made.spacings_in[0]))


def test_a_web_and_its_tie_a_purlin_and_its_hoops_and_a_clamped_brace_are_no_gaps():
    frame = full_frame()
    assert any(member.role == "web" for member in frame.members)
    assert any(brace.passes for brace in frame.braces)
    spacing = frame.spacing_in
    # The nearest web of another tie stands a bay away, and the nearest hoop that a clamped brace is not held to as well.
    assert all(tie.gaps["web"] > spacing - 2 for tie in frame.ties)
    assert all(brace.gaps["hoop"] > spacing - 4 for brace in frame.braces if brace.passes)
    assert not any(tight.kind == "hoop" for tight in frame.tight)


def test_a_situation_that_comes_again_is_exactly_as_it_would_be_by_itself():
    """Each piece measured with nothing remembered of the others."""
    frame = full_frame(30)
    pieces, runs = pieces_of(frame), runs_of(frame)
    around = Around(frame, pieces, runs)
    written = {piece.id: piece for piece in (*frame.braces, *frame.ties)}
    for rod in pieces:
        alone = measuring.Gauge(frame, around, measuring.Tightest()).situation(rod)
        if rod.id in written:
            assert written[rod.id].gaps == pytest.approx(alone.gaps, abs=1e-8)
            assert written[rod.id].clearance_to == alone.least.word(rod, around.hood(rod).items)
    assert not frame.refusals


# The five tightest.


@pytest.mark.parametrize("name", BRACED)
def test_the_five_tightest_are_five_different_places_in_order(name):
    doc = document(name, shortest_and_longest(family(name))[0], "fullest")
    known = {piece.id: piece for piece in doc.pieces()}
    assert len(doc.tight) == 5
    assert [tight.gap_in for tight in doc.tight] == sorted(tight.gap_in for tight in doc.tight)
    assert len({(known[tight.piece].role, tight.kind, getattr(known.get(tight.near), "role", "")) for tight in doc.tight}) == 5
    least = min(piece.clearance_in for piece in (*doc.braces, *doc.ties))
    assert doc.tight[0].gap_in == pytest.approx(least, abs=1e-6)


@pytest.mark.parametrize("name", BRACED)
def test_a_tight_place_lies_on_its_piece_and_is_as_far_from_its_neighbour_as_it_says(name):
    doc = document(name, shortest_and_longest(family(name))[1], "fullest")
    pieces = {piece.id: (piece.landing_from.hole, piece.landing_to.hole, doc.tubes[piece.role] / 2) for piece in (*doc.braces, *doc.ties)}
    pieces |= {member.id: (member.start, member.end, member.radius_in) for member in doc.members if member.hoop is None}
    for tight in doc.tight:
        start, end, radius = pieces[tight.piece]
        assert point_nearest(tight.at, start, end)[0] < 1e-6
        if tight.near in pieces:
            low, high, other = pieces[tight.near]
            assert point_nearest(tight.at, low, high)[0] - radius - other == pytest.approx(tight.gap_in, abs=1e-6)


def test_of_mirrored_corners_the_one_at_the_tag_end_stands_for_all():
    doc = document("g26-d", 576.0, "fullest")
    assert all(tight.at[1] <= 3 * 48 and tight.at[0] <= 0 for tight in doc.tight)


# Long structures.


def looks(monkeypatch, made, bays, options):
    """How often one thing was held against another, and how many neighbours were gathered."""
    counted = {"pairs": 0, "neighbours": 0}
    apart, look = measuring._apart, Around._look

    def count_apart(*given):
        counted["pairs"] += 1
        return apart(*given)

    def count_look(self, first, last, others):
        hood = look(self, first, last, others)
        counted["neighbours"] += len(hood.items)
        return hood

    monkeypatch.setattr(measuring, "_apart", count_apart)
    monkeypatch.setattr(Around, "_look", count_look)
    left_out = {option.code for option in made.options} - options
    configuration = choose(made, length_in=bays * made.spacings_in[0], with_=options, without=left_out)
    frame = build_frame(made, configuration)
    monkeypatch.undo()
    assert frame.ties
    assert frame.braces
    return counted


def test_the_work_grows_with_the_bays_and_not_with_their_square(monkeypatch):
    made = everything()
    options = fullest(made, 25 * made.spacings_in[0]).options
    at = {bays: looks(monkeypatch, made, bays, options) for bays in (25, 50, 100)}
    # The ends of a long structure are as busy as a short one's; each bay more adds its own neighbours, and no new pairs.
    assert at[100]["pairs"] == at[50]["pairs"]
    added = at[50]["neighbours"] - at[25]["neighbours"], at[100]["neighbours"] - at[50]["neighbours"]
    assert added[0] > 0
    assert added[1] == pytest.approx(2 * added[0], rel=0.1)
