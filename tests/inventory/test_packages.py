"""A kit split into bundles and bags: every piece once, with weights, cautions and what is left over. No database."""

from collections import Counter
from dataclasses import replace

import pytest

from inventory.packages import BUNDLE_LB, Caution, Taken, pack
from structures.frame.leftovers import Leftover
from tests.inventory.kits import all_taken, kit, line_of, taken
from tests.structures.full_family import full_document


def test_the_worked_example_is_packed_as_its_list_shows():
    packages = pack(all_taken(kit(without=("channel",))), kit(without=("channel",)))
    assert [(p.kind, p.title) for p in packages] == [
        ("bundle", "hoop side sections, left"), ("bundle", "hoop side sections, right"), ("bundle", "hoop roof sections"),
        ("bundle", "ground posts"), ("bundle", "purlin sticks"), ("bundle", "braces, ties, purlin ends"), ("bag", "bands"),
        ("bag", "connectors"), ("bag", "other fittings"), ("bag", "bolts, nuts and screws"),
    ]
    # Weights by the recipe of tube weight, to the pound: 262, 262, 370, 109, 123 and 140.
    assert [round(p.weight_lb) for p in packages[:6]] == [262, 262, 370, 109, 123, 140]


def test_the_left_legs_are_one_bundle_and_the_right_legs_another():
    left, right, *_ = pack([taken(kit(), "HS26-S")], kit())
    assert [(p.lines[0].count, p.lines[0].places[0], p.lines[0].places[-1]) for p in (left, right)] == [
        (13, "H1-L-foot:section:1", "H13-L-foot:section:1"), (13, "H1-R-foot:section:1", "H13-R-foot:section:1"),
    ]


def test_a_hoop_of_two_pieces_has_halves():
    packages = pack([taken(kit("r14-a", 40), "HS14-L"), taken(kit("r14-a", 40), "HS14-R")], kit("r14-a", 40))
    assert [p.title for p in packages] == ["hoop halves, left", "hoop halves, right"]


SIZES = [
    ("r14-a", 20), ("r14-a", 40), ("g20-a", 24), ("g20-b", 48), ("g26-a", 72), ("g26-d", 48), ("g26-d", 72), ("g30-b", 96),
    ("g30-b", 300),
]


@pytest.mark.parametrize(("name", "feet"), SIZES)
def test_every_piece_is_in_exactly_one_package(name, feet):
    document = kit(name, feet)
    packages = pack(all_taken(document), document)
    packed = Counter()
    for package in packages:
        for line in package.lines:
            packed[line.part] += line.count
    assert packed == {line.part: line.quantity for line in document.lines}


@pytest.mark.parametrize(("name", "feet"), SIZES)
def test_what_is_left_over_is_what_the_frame_does_not_need(name, feet):
    document = kit(name, feet)
    extras = Counter()
    for package in pack(all_taken(document), document):
        for leftover in package.leftovers:
            if leftover.kind != "offcut":
                extras[leftover.name] += leftover.count
    assert extras == +Counter({line.name: line.quantity - line.needed for line in document.lines})


@pytest.mark.parametrize(("name", "feet"), SIZES)
def test_no_bundle_of_several_pieces_is_heavier_than_a_strap_takes(name, feet):
    document = kit(name, feet)
    heaviest = max(p.weight_lb for p in pack(all_taken(document), document) if p.kind == "bundle")
    single = max(line.weight_lb / line.quantity for line in document.lines if line.tube)
    assert heaviest <= BUNDLE_LB + single


def test_a_heavy_bundle_becomes_several_of_about_equal_count():
    document = kit("g26-d", 72)
    packages = pack([taken(document, "HS26-R")], document)
    assert [(p.title, p.lines[0].count, p.lines[0].places[0]) for p in packages] == [
        ("hoop roof sections, 1 of 2", 10, "H1-L-seam:section:1"), ("hoop roof sections, 2 of 2", 9, "H11-L-seam:section:1"),
    ]


def test_offcuts_are_told_once_with_the_sticks():
    document = kit("g30-b", 300)
    told = [leftover for p in pack([taken(document, "PS131-106")], document) for leftover in p.leftovers]
    assert len(pack([taken(document, "PS131-106")], document)) > 1
    assert sum(leftover.count for leftover in told if leftover.kind == "offcut") == len(document.cuts)


def test_the_worked_example_leaves_three_offcuts_of_four_feet_six():
    package, = pack([taken(kit(), "PS131-106")], kit())
    assert package.leftovers == (Leftover("offcut", "offcut", 3, 54.0),)


def test_spares_and_what_fills_a_pack_are_kept_apart():
    document = kit()
    screws = line_of(document, "SC14")
    package, = pack([taken(document, "SC14")], document)
    assert package.leftovers == (
        Leftover("spare", screws.name, screws.spares), Leftover("pack rounding", screws.name, screws.pack_rounding),
    )
    assert [(line.count, line.spare) for line in package.lines] == [(screws.needed, False), (screws.quantity - screws.needed, True)]


def test_a_short_line_has_no_spares():
    package, = pack([taken(kit(), "NT516", 120)], kit())
    assert (package.lines[0].count, package.lines[0].spare, package.leftovers) == (120, False, ())


def test_a_second_load_counts_what_went_before():
    needed = line_of(kit(), "NT516").needed
    package, = pack([taken(kit(), "NT516", 80, sent=120)], kit())
    assert [(line.count, line.spare) for line in package.lines] == [(needed - 120, False), (200 - needed, True)]


def test_the_rest_of_the_legs_goes_to_the_places_that_are_still_empty():
    packages = pack([taken(kit(), "HS26-S", 6, sent=20)], kit())
    assert [p.lines[0].places for p in packages] == [tuple(f"H{n}-R-foot:section:1" for n in range(8, 14))]


def test_pieces_of_two_lots_keep_their_lots():
    document = kit()
    package, = pack([taken(document, "SB26", 6, "P-304"), taken(document, "SB26", 2, "P-311")], document)
    assert [(line.count, line.lot) for line in package.lines] == [(6, "P-304"), (2, "P-311")]


def test_two_lots_of_legs_are_shared_out_from_the_left():
    packages = pack([taken(kit(), "HS26-S", 20, "T-1"), taken(kit(), "HS26-S", 6, "T-2")], kit())
    assert [[(line.count, line.lot) for line in p.lines] for p in packages] == [[(13, "T-1")], [(7, "T-1"), (6, "T-2")]]


@pytest.mark.parametrize(("part", "count", "codes"), [
    ("SB26", 8, []),                               # 4-1 3/8 and 27 lb
    ("SB26", 16, ["heavy"]),                       # 53 lb
    ("PS131-106", 1, ["look-up"]),                 # 10-6 and 8 lb
    ("HS26-R", 13, ["look-up", "heavy"]),
])
def test_cautions_stand_on_the_package_they_belong_to(part, count, codes):
    package, = pack([taken(kit(), part, count)], kit())
    assert [caution.code for caution in package.cautions] == codes


def test_a_heavy_bundle_says_what_a_single_piece_weighs():
    package, = pack([taken(kit(), "GP166-30")], kit())
    heavy, = package.cautions
    assert (heavy.code, heavy.people, round(heavy.single_lb)) == ("heavy", 3, 4)


def test_a_weight_that_is_not_known_is_none_and_no_sum_of_the_rest():
    document = kit()
    known, unknown = taken(document, "SB26"), replace(taken(document, "RU26"), each_lb=None)
    package, = pack([known, unknown], document)
    assert (package.weight_lb, package.cautions) == (None, ())


def test_film_goes_roll_by_roll():
    document = kit("g26-d", 72, with_=("film",))
    roll = next(line for line in document.lines if line.kind == "film")
    packages = pack([taken(document, roll.part, 2)], document)
    assert [(p.kind, p.lines[0].count) for p in packages] == [("roll", 1), ("roll", 1)]


def test_loose_parts_are_packed_by_what_they_are():
    loose = [
        Taken(1, "BC190", "Band clamp 1.90", "band", "fitting", None, "", 16, "C-0402", 0.35),
        Taken(2, "TI26", "Collar tie, 26 ft", "tie", "tube", 162.0, "flattened and drilled both ends", 8, "P-298", 10.65),
        Taken(3, "SC14", "Screw", "screw", "fastener", 0.75, "", 50, "unknown", None),
    ]
    packages = pack(loose, None)
    assert [(p.kind, p.title, p.leftovers) for p in packages] == [
        ("bundle", "braces, ties, purlin ends", ()), ("bag", "bands", ()), ("bag", "bolts, nuts and screws", ()),
    ]
    assert packages[0].cautions == (Caution("look-up", 162.0), Caution("heavy", single_lb=10.65, people=2))


def test_nothing_taken_is_no_package():
    assert pack([], kit()) == ()
    assert pack([taken(kit(), "SB26", 0)], kit()) == ()


def test_boards_are_a_bundle_and_channel_is_a_carton():
    document = kit(with_=("boards",))
    packages = pack([taken(document, "HB12"), taken(document, "CH10")], document)
    assert {(package.kind, package.title.split(",")[0]) for package in packages} == {("bundle", "boards"), ("carton", "channel and wire")}


def test_a_door_is_one_heavy_package_and_two_people_lift_it():
    document = full_document()
    packages = pack([taken(document, "DD94-84")], document)
    assert [(package.kind, package.weight_lb, package.lines[0].count) for package in packages] == [("carton", 96, 1)] * 2
    assert packages[0].title == "door, two leaves, 7-10 x 7-0, with hinges and latch"
    # 96 lb is more than one lift of 51 lb and less than two of them.
    assert packages[0].cautions == (Caution("heavy", single_lb=None, people=2),)


def test_heavy_fittings_go_in_cartons_that_one_person_lifts():
    document = full_document()
    packages = pack([taken(document, "SH237-190")], document)
    # 26 shoes of 3.1 lb are 80.6 lb: two cartons of 13.
    assert [(package.kind, package.lines[0].count) for package in packages] == [("carton", 13)] * 2
    assert not any(package.cautions for package in packages)


def test_what_is_sawn_off_boards_runners_and_pipes_is_left_over_once_for_each_side():
    document = full_document(48)
    left = {package.lines[0].part: package.leftovers for package in
            pack([taken(document, part) for part in ("RN237-21", "HB12", "RP131-10")], document)}
    # A runner reaches 6 in. past each end hoop: 49 ft of 21 ft sticks leaves 14 ft; 48 ft of pipe in 10 ft sticks leaves 2 ft,
    # and 48 ft of 12 ft boards nothing.
    assert left == {"RN237-21": (Leftover("offcut", "offcut", 2, 168.0),), "HB12": (), "RP131-10": (Leftover("offcut", "offcut", 2, 24.0),)}


def test_every_piece_of_a_kit_with_everything_is_in_exactly_one_package():
    for document in (full_document(), full_document(96, "rolling")):
        packed = Counter()
        for package in pack(all_taken(document), document):
            for line in package.lines:
                packed[line.part] += line.count
        assert packed == {line.part: line.quantity for line in document.lines}
