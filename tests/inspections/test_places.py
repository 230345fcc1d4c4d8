"""What is looked at on a walk, and in what order."""

from collections import Counter
from datetime import date

import pytest

from inspections.checklist import ITEMS
from inspections.places import Change, PlaceError, place_index, read_place, walk_of
from tests.inspections.small_frame import small_document
from tests.structures.frames import document as shipped_document
from tests.structures.full_family import full_document


def _codes(stretch):
    return [place.id for place in stretch.places]


def test_the_walk_goes_up_the_right_side_round_the_far_end_and_back_along_the_left():
    assert [stretch.key for stretch in walk_of(small_document())] == ["B1-R", "B2-R", "E2", "B2-L", "B1-L", "E1"]


def test_one_stretch_is_looked_at_from_the_ground_up():
    assert _codes(walk_of(small_document())[0]) == [
        "H1-R-foot:bolt:1", "H1-R-foot:post:1", "H2-R-foot:band:1", "B1-R-side:film:1", "B1-R-side:brace:1",
        "H1-R-hip:band:1", "B1-R-hip:channel:1", "H1-R-shoulder:hoop:1", "B1-R-roof:film:1", "B1-ridge:slip:1",
        "H1-ridge:band:1", "H1-ridge:hoop:1", "B1-ridge:end:1", "B1-ridge:stick:1",
    ]


def test_every_place_stands_in_exactly_one_stretch():
    document = small_document()
    found = [place.id for stretch in walk_of(document) for place in stretch.places]
    whole = {joint.id for joint in document.joints} | {panel.id for panel in document.panels}
    whole |= {member.id for member in document.members if member.role != "section"} | {"B1-R-side:brace:1", "H2-tie:tie:1"}
    whole |= {f"H{n}-{at}:hoop:1" for n in (1, 2, 3) for at in ("ridge", "R-shoulder", "L-shoulder")}
    assert sorted(found) == sorted(whole)


@pytest.mark.parametrize(
    ("place_id", "words", "item"),
    [
        ("H2-R-foot:band:1", "side brace, lower end", "brace-end"),
        ("H1-R-hip:band:1", "side brace, upper end", "brace-end"),
        ("B1-R-side:brace:1", "side brace", "brace"),
        ("H2-ridge:connector:1", "cross connector, ridge purlin", "clamp"),
        ("H1-ridge:band:1", "ridge purlin, band of its end piece", "clamp"),
        ("H2-L-tie:band:1", "collar tie, left end", "tie"),
        ("H2-tie:tie:1", "collar tie", "tie"),
        ("H3-L-foot:post:1", "ground post", "post"),
        ("H3-L-foot:bolt:1", "foot bolt", "post"),
        ("H2-ridge:hoop:1", "hoop crown", "hoop"),
        ("H2-L-shoulder:hoop:1", "hoop shoulder", "hoop"),
        ("B2-L-roof:film:1", "film, roof", "film"),
        ("B1-R-hip:channel:1", "channel and wire", "channel"),
        ("E1-wall:wall:1", "end wall and door", "end-wall"),
        ("B1-ridge:slip:1", "slip joint, ridge purlin", "purlin"),
        ("B1-ridge:stick:1", "ridge purlin, stick", "purlin"),
    ],
)
def test_a_place_has_words_and_a_line_of_the_checklist(place_id, words, item):
    place = place_index(walk_of(small_document()))[place_id]
    assert (place.words, place.item) == (words, item)


def test_the_lower_end_of_a_brace_is_asked_in_the_bay_the_piece_lies_in_and_knows_its_corner():
    place = place_index(walk_of(small_document()))["H2-R-foot:band:1"]
    assert (place.stretch, place.corner) == ("B1-R", "tag right")


def test_the_last_hoop_belongs_to_the_last_bay_and_the_channel_over_an_end_hoop_to_its_end_wall():
    places = place_index(walk_of(small_document()))
    assert places["H3-L-foot:post:1"].stretch == "B2-L"
    assert places["H1-ridge:channel:1"].stretch == "E1"


def test_a_family_without_a_shoulder_mark_is_looked_at_in_the_middle_of_its_bend():
    plain = place_index(walk_of(small_document(stations={})))["H1-R-shoulder:hoop:1"]
    marked = place_index(walk_of(small_document()))["H1-R-shoulder:hoop:1"]
    assert plain.at[2] > 48
    assert plain.at != marked.at


def test_film_is_asked_for_only_where_the_order_had_film():
    document = small_document()
    bare = small_document(panels=tuple(panel for panel in document.panels if panel.kind != "film"))
    film = [sum(place.kind == "film" for place in place_index(walk_of(one)).values()) for one in (document, bare)]
    assert film == [8, 0]


def test_a_26_by_72_ft_kit_has_the_places_that_the_trade_counts():
    # A 26 x 72 ft demo kit has 38 foot bolts, 51 connectors, 62 band clamps and 6 purlin ends (invented scenario).
    kinds = Counter(place.kind for place in place_index(walk_of(shipped_document("g26-d", 72))).values())
    assert {kind: kinds[kind] for kind in ("bolt", "connector", "band", "end", "brace", "tie")} == {
        "bolt": 38, "connector": 51, "band": 62, "end": 6, "brace": 16, "tie": 9,
    }


@pytest.mark.parametrize(
    ("family", "length_ft"), [("r14-a", 20), ("r14-a", 100), ("g20-b", 48), ("g26-a", 48), ("g26-d", 24), ("g30-b", 300)]
)
def test_every_demo_family_has_a_walk_in_which_each_place_stands_once_with_words(family, length_ft):
    walk = walk_of(shipped_document(family, length_ft))
    ids = [place.id for stretch in walk for place in stretch.places]
    assert len(ids) == len(set(ids))
    assert all(place.words and place.item in ITEMS for stretch in walk for place in stretch.places)
    bays = {stretch.bay for stretch in walk if stretch.bay}
    assert len(walk) == 2 * len(bays) + 2


def test_places_with_one_code_and_name_are_told_apart_by_where_they_sit():
    places = place_index(walk_of(shipped_document("g26-d", 48)))
    assert places["H1-R-purlin:band:1"].words == "side purlin, band of its end piece, the lower one"
    assert places["H1-R-purlin:band:2"].words == "side purlin, band of its end piece, the upper one"
    sides = {places[f"H1-ridge:band:{n}"].words.rsplit(", ", 1)[1] for n in (1, 2)}
    assert sides == {"the left one", "the right one"}
    alike = Counter((place.code, place.words) for place in places.values())
    assert set(alike.values()) == {1}


def test_a_moved_tie_is_asked_about_with_its_two_bands():
    change = Change("moved", "H2-tie:tie:1", "to 2 ft under the ridge, to clear the sprayer", date(2025, 5, 3))
    places = place_index(walk_of(small_document(), [change]))
    said = "moved, seen 3 May 2025: to 2 ft under the ridge, to clear the sprayer"
    assert {key for key, place in places.items() if place.changed} == {"H2-tie:tie:1", "H2-L-tie:band:1", "H2-R-tie:band:1"}
    assert places["H2-L-tie:band:1"].changed == said


def test_a_piece_left_out_takes_its_own_two_landings_off_the_walk_and_nothing_else():
    before = place_index(walk_of(small_document()))
    after = place_index(walk_of(small_document(), [Change("left out", "B1-R-side:brace:1", "never fitted", date(2025, 5, 3))]))
    assert set(before) - set(after) == {"B1-R-side:brace:1", "H2-R-foot:band:1", "H1-R-hip:band:1"}
    assert set(after) < set(before)


def test_a_change_at_a_location_code_marks_everything_there():
    places = place_index(walk_of(small_document(), [Change("replaced", "H3-L-foot", "new post driven", date(2025, 5, 3))]))
    assert {key for key, place in places.items() if place.changed} == {"H3-L-foot:post:1", "H3-L-foot:bolt:1"}


def test_an_added_piece_is_asked_where_its_code_lies():
    change = Change("added", "B2-L-side:brace:1", "a second brace", date(2025, 5, 3))
    place = place_index(walk_of(small_document(), [change]))["B2-L-side:brace:1"]
    assert (place.stretch, place.item, place.changed) == ("B2-L", "brace", "added, seen 3 May 2025: a second brace")


def test_an_added_piece_may_be_named_by_its_code_alone():
    place = place_index(walk_of(small_document(), [Change("added", "B2-L-side", "a cable", date(2025, 5, 3))]))["B2-L-side"]
    assert (place.stretch, place.words) == ("B2-L", "added piece")


def test_a_piece_moved_to_where_nothing_was_is_asked_about_there():
    change = Change("moved", "H3-tie", "the tie of hoop 2", date(2025, 5, 3))
    assert place_index(walk_of(small_document(), [change]))["H3-tie"].stretch == "B2-R"


def test_an_added_piece_in_words_that_are_no_place_is_still_asked_about():
    places = place_index(walk_of(small_document(), [Change("added", "a cable", "across the middle", date(2025, 5, 3))]))
    assert places["a cable"].stretch == "E1"


@pytest.mark.parametrize("text", ["", "H0-L-foot:post:1", "H3-X-foot:post:1", "H3-L-foot:post", "H3-L-foot:post:0", "E3-wall:wall:1"])
def test_words_that_are_no_place_are_refused_in_a_sentence(text):
    with pytest.raises(PlaceError) as refused:
        read_place(text)
    assert str(refused.value) == (
        f"{text!r} is no place: write code, kind and ordinal like H2-R-mid:band:1 or E1-wall:wall:1."
    )


def test_a_place_id_is_read_into_its_parts():
    read = read_place("B3-L-hip:hip-board:2")
    assert (read.code, read.kind, read.ordinal) == ("B3-L-hip", "hip-board", 2)
    assert (read.bay, read.hoop, read.side, read.last) == (3, None, "left", "hip")


@pytest.mark.parametrize(
    ("place_id", "words", "item"),
    [
        ("B1-L-runner:runner:1", "runner", "runner"),
        ("B6-R-runner:splice:1", "runner splice", "runner"),
        ("H3-L-foot:shoe:1", "runner shoe", "runner"),
        ("H5-R-foot:anchor:1", "ground anchor", "anchor"),
        ("E1-door:door:1", "door", "end-wall"),
        ("B1-L-roll:roll-pipe:1", "roll-up pipe", "roll-up"),
        ("B3-L-roll:splice:1", "sleeve of the roll-up pipe", "roll-up"),
        ("B2-R-roll:rope:1", "roll-up rope", "roll-up"),
        ("H1-R-roll:crank:1", "roll-up crank", "roll-up"),
        ("E1-blower:blower:1", "film blower", "blower"),
        ("H2-L-web:web:1", "web of the tie", "tie"),
        ("H2-L-web:band:1", "web of the tie, end at the tie", "tie"),
        ("H2-L-web-top:band:1", "web of the tie, end at the hoop", "tie"),
        ("B4-R-hip:splice:1", "splice of the hip board", "board"),
        ("B4-R-foot:splice:1", "splice of the base board", "board"),
        ("B1-R-roof:film:2", "inner film, roof", "film"),
    ],
)
def test_gear_bases_and_webs_have_words_and_a_line_of_the_checklist(place_id, words, item):
    place = place_index(walk_of(full_document()))[place_id]
    assert (place.words, place.item) == (words, item)


def test_a_walk_of_everything_stands_each_place_once_and_asks_a_board_bay_by_bay():
    places = [place for stretch in walk_of(full_document()) for place in stretch.places]
    assert len({place.id for place in places}) == len(places)
    assert all(place.words and place.item in ITEMS for place in places)
    kinds = Counter(place.kind for place in places)
    # 12 bays: 24 lengths of each board, and no stick of one
    assert (kinds["hip-board"], kinds["base-board"], kinds["board"]) == (24, 24, 0)
