"""The build sheet as rows and sentences, against the document it is read from and against plain arithmetic. No database."""

from dataclasses import replace
from pathlib import Path

import pytest

from structures.frame.document import Document, Reach, Step, Tail, Tight, read_document
from structures.frame.lengths import read_length
from structures.frame.said import Said
from structures.frame.sheet import Heading, build_sheet, card_parts, make_card, rain_corners
from structures.frame.sheet.braces import codes_words, furthest_words, moves_words
from structures.frame.sheet.telling import Telling, following_end, station_words
from tests.structures.frames import all_names, document

HEADING = Heading("order 1207", "Ada Quill, Quillmere Croft", "12 Mar 2024")
SCHEMA_1 = Path(__file__).parent / "documents" / "schema-1-gothic-48.json"
SIXTEENTH = 1 / 16


def sheet_of(name="g26-d", feet=48, units="us", **chosen):
    return build_sheet(document(name, feet, **chosen), HEADING, units)


def old() -> Document:
    return read_document(SCHEMA_1.read_text())


def about(words: str) -> float:
    """A figure of the sheet in inches."""
    return read_length(words)


def test_the_foot_of_every_page_says_whose_it_is():
    assert sheet_of().margin == "Only for order 1207, Ada Quill, Quillmere Croft. G26 × 48-0, revision D. Printed 12 Mar 2024"


# --- marks -----------------------------------------------------------------------------------------

@pytest.mark.parametrize("name", all_names())
def test_every_mark_of_the_document_stands_with_each_of_its_hoops_once(name):
    frame = document(name)
    sheet = build_sheet(frame, HEADING)
    wanted = sorted(len(mark.hoops) for mark in frame.marks if mark.kind != "seam")
    told = [(group.count, row) for group in sheet.marks for row in group.rows]
    assert sum(count for count, _ in told) == sum(wanted)
    assert sum(group.count for group in sheet.marks) == frame.measures.hoops


@pytest.mark.parametrize("units", ["us", "metric"])
def test_figures_of_the_marks_are_the_documents_own(units):
    frame = document("g26-d", 48)
    group = build_sheet(frame, HEADING, units).marks[1]
    assert group.hoops == "Hoops 2 and 12"
    marks = [mark for mark in frame.marks if 2 in mark.hoops and mark.kind != "seam"]
    for row, mark in zip(group.rows, marks, strict=True):
        assert abs(about(row.from_foot) - mark.from_foot_in) < SIXTEENTH
        assert abs(about(row.centre) - abs(mark.from_datum_in)) < SIXTEENTH
        if mark.kind == "band":
            assert abs(about(row.edge) - mark.edge_in) < SIXTEENTH


def test_a_mark_is_measured_from_the_near_end_of_its_piece_at_the_edge_first_met():
    """The worked example of the demo's tables: seam at 12-0, side purlin at 8-8, a connector 1 1/4 in. wide: 144 - 104 = 40 in.
    down to its middle, 40 - 5/8 to its edge."""
    group = sheet_of().marks[1]
    row, = (row for row in group.rows if row.place == "side purlin")
    assert (row.measured, row.edge, row.centre, row.from_foot) == ("down from the seam", "3-3 3/8", "3-4", "8-8")


def test_what_has_no_edges_is_marked_at_its_middle():
    rows = [row for group in sheet_of().marks for row in group.rows if row.what in ("foot bolt", "hip channel", "upright bracket")]
    assert rows
    assert {row.edge for row in rows} == {""}


def test_the_ridge_connector_sits_half_its_width_each_way():
    row = sheet_of().marks[-1].rows[-1]
    assert (row.what, row.side, row.measured, row.edge) == ("cross connector", "the middle", "on the ridge mark", "5/8 in. each way")


def test_two_bands_at_one_place_are_lower_and_upper():
    rows = [row.what for row in sheet_of().marks[1].rows if row.what.startswith("brace band")]
    assert rows == ["brace band, lower", "brace band, upper"] * 2


def test_a_seam_on_one_side_alone_gives_each_side_its_own_marks():
    """G20's one seam lies 6 in. right of the ridge, so right and left are measured from different ends."""
    rows = [row for row in sheet_of("g20-b").marks[2].rows if row.place == "high"]
    assert [(row.side, row.piece, row.measured, row.centre) for row in rows] == [
        ("left", "left section", "down from the ridge", "1-0"), ("right", "right section", "down from the seam", "0-6"),
    ]


# --- corners ---------------------------------------------------------------------------------------

def test_hoops_are_read_from_ones_left():
    """Facing the tag end from inside, the tag end's right side is at one's left: the end hoop stands rightmost there."""
    pages = {page.corner: page.hoops for page in sheet_of().corners}
    assert pages == {"tag left": "1, 2, 3", "tag right": "3, 2, 1", "far left": "11, 12, 13", "far right": "13, 12, 11"}


def test_a_corner_has_the_pieces_and_bands_of_its_own_and_no_others():
    frame = document("g26-d", 48)
    for page in build_sheet(frame, HEADING).corners:
        braces = [brace for brace in frame.braces if brace.corner == page.corner]
        assert sorted(page.ids) == sorted(brace.id for brace in braces)
        bands = {at.joint for brace in braces for at in (brace.landing_from, brace.landing_to)}
        assert bands <= {row.joint for row in page.landings}
        by_joint = {joint.id: joint for joint in frame.joints}
        for row in page.landings:
            assert abs(about(row.from_foot) - by_joint[row.joint].from_foot_in) < SIXTEENTH


def test_the_first_corner_of_the_demo_is_as_its_table_says():
    """The figures of the demo's tables: hoop 3 set at 0-8 and 19-10, the roof's lower piece turned and last at hoop 1."""
    page = sheet_of().corners[0]
    rows = {(row.code, row.which): (row.edge, row.centre, row.from_foot, row.measured) for row in page.landings}
    assert rows["H3-L-foot", ""] == ("0-7 3/8", "0-8", "0-8", "up from the foot")
    assert rows["H3-L-high", ""] == ("0-11 3/8", "1-0", "19-10", "down from the ridge")
    assert rows["H1-L-shoulder", ""] == ("3-1 3/8", "3-2", "8-10", "down from the seam")
    assert rows["H2-L-mid", "upper"][3] == "butted on it"
    lower, = (row for row in page.braces if row.part.startswith("RL26"))
    assert (lower.letter, lower.length, lower.twist, lower.set_at, lower.follows, lower.turned) == (
        "C", "6-7 3/16", "5.5° right, made at the press", "from H2-L-roof", "H1-L-shoulder", "H1-L-shoulder",
    )


def test_what_is_not_here_is_one_sentence_with_each_kind_of_no():
    said = sheet_of().corners[0].absent
    assert said.startswith("The ties go on in step 16. This order has no other brace at this corner; offered, not bought: snow pack, hip")
    assert said.endswith("; not made for this size: mid-length side braces.")


def test_a_corners_steps_name_the_letters_and_numbers_of_its_drawing():
    """Side brace A from place 1 over 2 to 3, and what waits says for which step: the roof sections' braces for squaring, step 17."""
    page = sheet_of().corners[0]
    side, ridge, lower = page.steps
    assert (side.how, ridge.how, lower.how) == ("Fit now.", "Wait till step 17 is done.", "Wait till step 18 is done.")
    assert "SB26 (A) at H3-L-foot (1), 0-8 up, then at H2-L-mid (2), 2-4 7/8 up; SB26 (A) at H2-L-mid (2), " in side.does
    assert "RL26-R (C, right twist) at H2-L-roof (5), " in lower.does
    assert lower.does.partition("The turned end goes on last, ")[2].startswith("at H1-L-shoulder (4).")
    assert "H3-R-high, 19-10" in ridge.does      # another corner's place has no number here


def test_ears_point_along_the_row_to_the_other_end_of_their_piece():
    """Hoops 3, 2 and 1 in a chain: the lower of the two bands on hoop 2 faces hoop 3, the upper faces hoop 1; a tie's face inward."""
    ears = {(row.code, row.which): row.ears for row in sheet_of().corners[0].landings}
    assert ears["H3-L-foot", ""] == ears["H1-L-brace-hip", ""] == "hoop 2"
    assert (ears["H2-L-mid", "lower"], ears["H2-L-mid", "upper"]) == ("hoop 3", "hoop 1")
    assert (ears["H2-L-roof", "lower"], ears["H2-L-roof", "upper"]) == ("hoop 1", "hoop 3")
    assert ears["H2-L-tie", ""] == "inside"


def test_only_words_that_this_sheet_uses_are_explained():
    words = dict(sheet_of().words)
    assert words["3-10 1/8"] == "3 feet and 10 1/8 inches"
    assert words["Letters A to E"].startswith("a part, the same on every page")
    assert "foot, mid (middle), brace-hip (hip), hip, purlin (side purlin), shoulder, " in words["Places on a hoop"]
    bare = dict(sheet_of("r14-a", 40, without=("side-braces",)).words)
    assert {"butted", "set", "follows", "twist", "turned end", "Thin rings"} & bare.keys() == set()
    assert "turned end" not in dict(sheet_of("g26-c", 48).words)      # its only braces are not turned at the press
    assert "3-10 1/8" not in dict(sheet_of("g26-d", 48, "metric").words)


def test_mid_length_has_pages_of_its_own_only_where_braces_stand_there():
    assert [page.title for page in sheet_of("g30-b", 96).corners][4:] == ["Mid-length, left", "Mid-length, right"]
    assert len(sheet_of("g30-b", 72).corners) == 4


def test_a_frame_without_braces_has_no_corner_and_says_so():
    sheet = sheet_of("g26-d", 48, without=("side-braces", "roof-braces"))
    assert (sheet.corners, sheet.missing["braces"]) == ((), "This order has no braces.")


# --- braces ----------------------------------------------------------------------------------------

@pytest.mark.parametrize("name", all_names())
def test_every_brace_stands_in_one_row(name):
    frame = document(name)
    assert sum(row.count for row in build_sheet(frame, HEADING).braces) == len(frame.braces)


def test_ties_are_told_by_their_hoops_and_webs_by_the_tie_they_stand_on():
    """The demo's table: ties of 13-6 lie 7-6 1/8 from the ridge on the even inner hoops."""
    row, = sheet_of().ties
    assert (row.letter, row.count, row.length) == ("E", 6, "13-6")
    assert row.where.startswith("across hoops 2, 4, 6, 8, 10 and 12, 13-3 13/16 up from each foot, 7-6 1/8 down from the ridge")
    webs = [row for row in sheet_of("g30-b", 48, with_=("webs",)).ties if row.where.startswith("on hoop")]
    assert sum(row.count for row in webs) == sum(member.role == "web" for member in document("g30-b", 48, with_=("webs",)).members) > 0


def test_each_hand_has_rows_of_its_own():
    rows = [row for row in sheet_of().braces if row.part.startswith("RL26")]
    assert [(row.part, row.count, row.corners) for row in rows] == [
        ("RL26-L", 2, "tag right and far left"), ("RL26-R", 2, "tag left and far right"),
    ]


@pytest.mark.parametrize(("moves", "units", "said"), [
    (-1.1875, "us", "about 2 3/8 in. lower for each 1 in. the bay is too wide"),
    (0.5, "us", "about 1 in. higher for each 1 in. the bay is too wide"),
    (-1.1875, "metric", "about 24 mm lower for each 10 mm the bay is too wide"),
    (0.0, "us", "hardly moves"),
    (None, "us", "no longer reaches when the bay is too wide"),
])
def test_a_following_end_moves_twice_what_half_an_inch_moves_it(moves, units, said):
    telling = Telling(document("g26-d", 48), units)
    assert moves_words(telling, Reach("from", 6.0, "foot", 24.0, "seam", moves)) == said


def test_the_furthest_places_say_what_is_met_there():
    telling = Telling(document("g26-d", 48), "us")
    reach = Reach("from", 6.0, "H1-L-foot:bolt:1", 24.0, "hip board", 0.0)
    assert furthest_words(telling, reach) == "0-6 (foot bolt) to 2-0 (hip board)"
    assert furthest_words(telling, None) == "unknown"


@pytest.mark.parametrize(("codes", "said"), [
    (["H3-L-foot", "H3-R-foot"], "H3-foot"),
    (["H1-L-shoulder", "H13-R-shoulder"], "H1-L-shoulder and H13-R-shoulder"),
    (["from H2-L-mid", "from H12-R-mid"], "from H2-L-mid and H12-R-mid"),
    (["none", "none"], "none"),
])
def test_codes_leave_out_the_side_where_both_are_there(codes, said):
    assert codes_words(codes) == said


def test_the_end_that_follows_is_told_by_the_chain_where_no_reach_is_kept():
    ends = {brace.from_: following_end(old(), brace) for brace in old().braces if brace.corner == "tag left"}
    assert ends
    assert set(ends.values()) == {"from"}          # set at hoop 3, so each piece's end nearer hoop 1 follows


@pytest.mark.parametrize(("near", "kind", "said"), [
    ("film", "film", "film line"), ("H1-L-shoulder", "own hoop", "its own hoop, H1-L-shoulder"),
    ("H1-L-13:channel", "channel", "channel, hoop 1 left"), ("R-foot:base-board", "board", "base board, right side"),
    ("B1-L-purlin:end:1", "purlin", "Purlin end, B1-L-purlin"), ("E1-post:post:2", "post", "post, E1-post"), ("hoop 3", "hoop", "hoop 3"),
])
def test_a_gap_names_its_neighbour(near, kind, said):
    frame = document("g26-d", 48)
    piece = next(brace.id for brace in frame.braces if brace.part == "RL26-R")
    row, = build_sheet(replace(frame, tight=(Tight(piece, near, kind, 0.3125, (0.0, 0.0, 0.0)),)), HEADING).gaps
    assert (row.letter, row.piece, row.near, row.gap) == ("C", "Roof brace, lower, right twist", said, "5/16 in.")


def test_a_flattened_end_says_how_it_is_bent_and_how_far_it_stands_out():
    """G26's lower roof piece leaves the end hoop inward at 7.30 degrees, and its tail lies 0.535 in. within the hoop's line, 0.481 as
    long as its twist of 5.45 degrees is not made: worked out in figures in tests/outside/test_tails.py. 0.535 is 9/16 to the
    sixteenth, and 0.481 is 1/2."""
    rows = {(row.letter, row.end): row for row in sheet_of().flats}
    shoulder = rows["C", "shoulder"]
    assert (shoulder.piece, shoulder.bend) == ("Roof brace, lower", "7.3° inward")
    assert (shoulder.made, shoulder.unmade) == ("within it by 9/16 in.", "within it by 1/2 in.")
    assert (rows["A", "foot"].bend, rows["A", "foot"].unmade) == ("none", "the same")
    frame = document("g26-d", 48)
    out = replace(frame.braces[0], tail_from=Tail(0.25, 0.25), tail_to=None)
    told = build_sheet(replace(frame, braces=(out,)), HEADING).flats
    assert [row.made for row in told] == ["1/4 in. outside the hoop’s line"]


def test_every_flattened_end_of_a_brace_stands_in_one_row():
    frame = document("g30-b", 96)
    told = {(row.letter, row.end) for row in build_sheet(frame, HEADING).flats}
    letters = Telling(frame).letters
    assert told == {(letters[brace.part], station_words(at.station)) for brace in frame.braces
                    for at in (brace.landing_from, brace.landing_to)}


def test_each_hoop_is_measured_from_the_first():
    """13 hoops 4 ft apart, their tube 1.9 in.: 3-10 1/8 between two of them."""
    facts = dict(sheet_of().facts)
    assert facts["Clear gap between hoops"] == "3-10 1/8"
    assert facts["Each hoop from hoop 1, middle to middle"] == ", ".join(f"{n} at {4 * (n - 1)}-0" for n in range(2, 14))


def test_what_a_size_warns_of_stands_on_its_sheet():
    frame = document("g26-d", 48)
    warned = replace(frame, warnings=(Said("The ridge purlin has a slip joint {gap_in} from its connector.", {"gap_in": 6.0}),))
    assert build_sheet(warned, HEADING, "metric").notes == ("The ridge purlin has a slip joint 152 mm from its connector.",)
    assert build_sheet(frame, HEADING).notes == ()


# --- purlins, leftovers ------------------------------------------------------------------------------

def test_the_last_stick_and_its_offcut_add_up_to_a_stick():
    frame = document("g20-b", 48)
    for row in build_sheet(frame, HEADING).cuts:
        assert abs(about(row.last) + about(row.offcut) - about(row.stick)) < 1e-9
    assert [row.run for row in build_sheet(frame, HEADING).cuts] == ["ridge", "side purlin, left", "side purlin, right"]


def test_leftovers_are_quantity_less_what_is_needed_and_what_is_sawn_off():
    frame = document("g26-d", 48)
    rows = {row.part: row.words for row in build_sheet(frame, HEADING).leftovers}
    assert rows["PS131-106"] == "3 offcuts of about 4-6, one from each run. They are not missing pieces"
    more = {line.part for line in frame.lines if line.quantity > line.needed}
    assert set(rows) == more | {"PS131-106"}


# --- steps -----------------------------------------------------------------------------------------

def with_steps() -> Document:
    frame = document("g26-d", 48)
    brace = next(brace for brace in frame.braces if brace.corner == "tag left")
    post = next(member for member in frame.members if member.role == "post")
    steps = (
        Step(1, "posts", Said("Drive the posts {deep_in} deep."  , {"deep_in": 24.0}), (post.id,), (), "", Said(""), (),
             (Said("Have buried services located first."),), Said("hoops and all that they carry")),
        Step(2, "braces", Said("Bolt brace A."), (brace.id,), (), "fit now", Said("It steadies the hoop."), (1,), (), Said("")),
    )
    return replace(frame, sequence=steps)


@pytest.mark.parametrize(("units", "deep"), [("us", "2-0"), ("metric", "610 mm")])
def test_steps_are_told_in_the_readers_units_with_their_cautions(units, deep):
    first, second = build_sheet(with_steps(), HEADING, units).stages
    assert (first.name, first.steps[0].does) == ("posts", f"Drive the posts {deep} deep.")
    assert (first.steps[0].cautions, first.steps[0].not_yet) == (("Have buried services located first.",), "hoops and all that they carry")
    assert (second.steps[0].how, second.steps[0].why) == ("Fit now.", "It steadies the hoop.")


def test_a_corner_has_the_steps_that_fit_its_pieces():
    pages = {page.corner: [step.number for step in page.steps] for page in build_sheet(with_steps(), HEADING).corners}
    assert pages == {"tag left": [2], "tag right": [], "far left": [], "far right": []}


# --- documents of before -----------------------------------------------------------------------------

def test_an_older_document_says_what_it_does_not_hold():
    sheet = build_sheet(old(), HEADING)
    assert sheet.missing == {
        "bring": "This order was worked out before what the customer must bring was kept; ask the maker.",
        "gaps": "This order was worked out before the tightest gaps were kept; look along each piece before it is tightened.",
        "flats": "This order was worked out before how far flattened ends stand out was kept; look along each before the film goes on.",
        "joints": "This order was worked out before the hardware of each joint was kept; the packing list says what goes to a joint.",
        "stages": "This order was worked out before the order of work was kept; ask the maker in which order it goes up.",
        "reach": "This order was worked out before how far a band may follow was kept; a band well off its mark means a wrong piece, or a "
                 "bay that is out.",
    }
    assert all((sheet.marks, sheet.corners, sheet.braces, sheet.cuts, sheet.leftovers))
    assert {row.turned for row in sheet.braces if "press" in row.twist} <= {"unknown"}
    assert card_parts(sheet) == ()


# --- rain sheet and cards ------------------------------------------------------------------------------

def test_the_rain_sheet_draws_two_corners_and_names_their_likes():
    found = rain_corners(sheet_of())
    assert [(corner.title, corner.also) for corner in found] == [
        ("Tag end, left", "the same at the far end, right: 13, 12, 11"), ("Tag end, right", "the same at the far end, left: 11, 12, 13"),
    ]
    lower, = (piece for piece in found[0].pieces if piece.twist)
    assert (lower.letter, lower.length, lower.twist, lower.turned_at) == ("C", "6-7 3/16", "5.5° right", "4")


def test_corners_that_differ_are_each_drawn():
    sheet = sheet_of()
    first = sheet.corners[0]
    moved = replace(first, landings=(replace(first.landings[0], edge="0-7"), *first.landings[1:]))
    assert len(rain_corners(replace(sheet, corners=(moved, *sheet.corners[1:])))) == 3


def test_a_card_has_both_ends_of_a_turned_part_and_one_of_any_other():
    sheet = sheet_of()
    turned, plain = make_card(sheet, "rl26-l", None), make_card(sheet, "RU26", None)
    assert [end.title for end in turned.ends] == ["The end that is bolted first", "The end that is turned, bolted last"]
    assert [end.places for end in turned.ends] == ["It goes to H2-R-roof and H12-L-roof", "It goes to H1-R-shoulder and H13-L-shoulder"]
    assert [end.title for end in plain.ends] == ["Both ends are alike"]
    assert make_card(sheet, "HS26-S", None) is None


def test_a_web_has_a_card_as_ties_have():
    sheet = build_sheet(document("g30-b", 48, ("webs",)), HEADING)
    assert card_parts(sheet)[-2:] == ("TI30", "WB30")
    card = make_card(sheet, "WB30", None)
    # 48 ft is 13 hoops, a tie on each of the 11 inner ones, two webs to a tie
    assert (card.name, card.letter, card.length, card.count) == ("Tie web", "", "2-7 13/16", 22)
    assert [(end.title, end.places) for end in card.ends] == [("Both ends are alike", "22 pieces in this order")]
