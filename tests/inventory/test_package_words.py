"""Packages in words: items, places, cautions and leftovers as they stand on the list. No database."""

import pytest

from inventory.package_words import caution_words, goes_words, item_words, turned_parts, weight_words
from inventory.packages import Packed, pack
from structures.frame.leftovers import leftover_words
from structures.frame.names import short_name
from tests.inventory.kits import kit, line_of, taken
from tests.structures.full_family import full_document


def goes(part, document=None, units="us"):
    document = document or kit()
    packages = pack([taken(document, part)], document)
    return [goes_words(line, document, units) for package in packages for line in package.lines if not line.spare]


@pytest.mark.parametrize(("part", "said"), [
    ("HS26-S", ["left legs, H1 to H13", "right legs, H1 to H13"]),
    ("HS26-R", ["over the ridge, H1 to H13"]),
    ("GP166-30", ["inside each leg, H1 to H13"]),
    ("PS131-106", ["3 runs of 5; last lay 6-0, cut to fit"]),
    ("PE131-10", ["H1 and H13, three runs"]),
    ("SB26", ["each corner, H1-brace-hip to H2-mid to H3-foot"]),
    ("RL26-L", ["H1-R-shoulder to H2-R-roof; H13-L-shoulder to H12-L-roof"]),
    ("RL26-R", ["H1-L-shoulder to H2-L-roof; H13-R-shoulder to H12-R-roof"]),
    ("RU26", ["each corner, H2-roof to H3-high"]),
    ("TI26", ["H2, H4, H6, H8, H10 and H12"]),
    ("BC190", ["2 to each purlin end, brace and tie"]),
    ("CC190-131", ["3 runs on H2 to H12"]),
    ("BT516-2", ["2 to each connector"]),
    ("BT38-3", ["1 to each foot"]),
    ("UB14", ["end wall uprights, E1 and E2"]),
])
def test_where_each_part_goes(part, said):
    assert goes(part) == said


@pytest.mark.parametrize(("part", "said"), [
    ("RN237-21", "2 runs of 3; last 7-0, cut to fit"),
    ("RP131-10", "2 runs of 5; last 8-0, cut to fit"),
    ("HB12", "2 runs of 4"),
    ("SH237-190", "both feet of H1 to H13"),
    ("GA30", "both feet of H1, H5, H9 and H13"),
    ("WB30", "from each tie up to its hoop, H2 to H12"),
    ("BC131", "22 web tie bands at webs"),
    ("DD94-84", "2 doors at end walls"),
    ("EY14", "2 to each rope"),
    ("BT38-4", "1 to each shoe; 2 to each runner splice"),
])
def test_where_gear_bases_and_webs_go(part, said):
    assert set(goes(part, full_document())) == {said}


def test_posts_of_the_round_family_stand_outside():
    assert goes("GP190-28", kit("r14-a", 40)) == ["outside each leg, H1 to H9"]


def test_halves_of_a_hoop_are_called_so():
    assert goes("HS14-L", kit("r14-a", 40)) == ["left halves, H1 to H9"]


def test_mid_length_braces_are_named_beside_the_corners():
    said, = goes("SB30", kit("g30-b", 96))
    assert said.startswith("each corner, H1-brace-hip to H2-mid to H3-foot; mid-length H12")


def test_lengths_are_said_in_a_persons_own_units():
    assert goes("PS131-106", units="metric") == ["3 runs of 5; last lay 1829 mm, cut to fit"]


def test_spares_and_loose_parts_go_nowhere():
    spare = Packed(1, "NT516", "Nut 5/16", "nut", "", None, 4, "unknown", None, spare=True)
    assert goes_words(spare, kit()) == ""
    assert goes_words(Packed(1, "SB26", "Side brace", "side-brace", "", None, 4, "unknown", None), None) == ""


def test_an_item_is_named_with_its_ends_and_hand():
    turned = turned_parts(kit())
    said = {}
    for part in ("SB26", "RL26-L", "RU26", "HS26-R"):
        line = line_of(kit(), part)
        packed = Packed(1, part, line.name, line.role, line.ends, line.length_in, 1, "unknown", None)
        hand, zone = turned.get(part, ("", False))
        said[part] = item_words(packed, hand, turned=zone)
    assert said == {
        "SB26": "Side brace, flat both ends",
        "RL26-L": "Roof brace, lower, left twist, flat both ends",
        "RU26": "Roof brace, upper, no twist, flat both ends",
        "HS26-R": "Hoop roof section, plain both ends",
    }


def test_a_spare_says_so():
    assert item_words(Packed(1, "NT516", "Nut 5/16", "nut", "", None, 4, "unknown", None, spare=True)) == "Nut 5/16, spare"


def test_the_width_of_the_family_is_left_out_among_its_own():
    assert [short_name(name) for name in ("Side brace, 26 ft", "Ground post, 1.66", "Film roll 44 x 100 ft, 6 mil")] == [
        "Side brace", "Ground post, 1.66", "Film roll 44 x 100 ft, 6 mil",
    ]


@pytest.mark.parametrize(("caution", "said"), [
    ({"code": "look-up", "length_in": 211.9375, "single_lb": None, "people": 1}, "17-7 15/16 long, look up before lifting"),
    ({"code": "heavy", "length_in": None, "single_lb": 20.15, "people": 6}, "open it to carry: single piece 20 lb"),
    ({"code": "heavy", "length_in": None, "single_lb": 4.2, "people": 3}, "three people, or open it: single piece 4 lb"),
    ({"code": "heavy", "length_in": None, "single_lb": None, "people": 2}, "two people to lift it"),
    ({"code": "heavy", "length_in": None, "single_lb": None, "people": 5}, "not lifted by hand"),
])
def test_cautions_in_words(caution, said):
    assert caution_words(caution) == said


@pytest.mark.parametrize(("leftovers", "said"), [
    ([], "nothing"),
    ([{"kind": "offcut", "name": "offcut", "count": 3, "length_in": 54.0}],
     "3 offcuts of about 4-6, one from each run. They are not missing pieces"),
    ([{"kind": "offcut", "name": "offcut", "count": 1, "length_in": 30.0}], "1 offcut of about 2-6. It is no missing piece"),
    ([{"kind": "spare", "name": "Screw", "count": 8}, {"kind": "pack rounding", "name": "Screw", "count": 32}],
     "8 Screw, spare; 32 Screw, to fill a pack"),
])
def test_leftovers_in_words(leftovers, said):
    assert leftover_words(leftovers) == said


def test_an_unknown_weight_is_the_word():
    assert (weight_words(None), weight_words(1262.4)) == ("weight unknown", "1,262 lb")
