"""What an add-on pack would need: plain differences of counts, the places of the new pieces, and what stands in the way."""

from dataclasses import replace

import pytest

from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.family import OneOff
from structures.frame.retrofit import add_on
from tests.structures.frames import document, family

G26 = ("g26-d", 72)


def needed(doc) -> dict[str, int]:
    return {line.part: line.needed for line in doc.lines}


def snow():
    return document(*G26), document(*G26, ("snow-ties",))


def test_the_snow_pack_of_a_g26_of_72_ft_is_8_ties_and_16_bands():
    """The invented scenario's own figures: ties stand on the 9 even hoops of 19, the pack adds the 8 odd inner ones, and each
    tie takes two bands, each with a bolt and a nut."""
    pack = add_on(*snow())
    assert {line.part: line.count for line in pack.lines} == {"TI26": 8, "BC190": 16, "BT516-1": 16, "NT516": 16}
    assert [line.places for line in pack.lines if line.part == "TI26"] == [
        tuple(f"H{hoop}-tie:tie:1" for hoop in (3, 5, 7, 9, 11, 13, 15, 17))
    ]
    assert (len(pack.pieces), pack.bands) == (8, 16)
    assert not pack.comes_off
    assert not pack.shifted
    assert not pack.impossible


@pytest.mark.parametrize(
    ("name", "feet", "option"),
    [("g26-d", 48, "snow-ties"), ("g26-d", 72, "boards"), ("g26-d", 72, "film"), ("g20-b", 48, "snow-ties"), ("g30-b", 96, "film")],
)
def test_a_pack_is_the_one_kit_less_the_other(name, feet, option):
    stands, wanted = document(name, feet), document(name, feet, (option,))
    was, now = needed(stands), needed(wanted)
    pack = add_on(stands, wanted)
    net = {line.part: line.count for line in pack.lines}
    for line in pack.comes_off:
        net[line.part] = net.get(line.part, 0) - line.count
    assert {part: count for part, count in net.items() if count} == {
        part: now.get(part, 0) - was.get(part, 0) for part in {*was, *now} if now.get(part, 0) != was.get(part, 0)
    }


def test_what_one_option_excludes_comes_off():
    """The roof braces away again: the same parts, now on the other list, with the places they come from."""
    with_braces, without = document(*G26), document(*G26, (), ("roof-braces",))
    pack = add_on(with_braces, without)
    assert not pack.lines
    assert not pack.pieces
    assert not pack.marks
    assert {line.part: line.count for line in pack.comes_off} == {
        "RL26-L": 2, "RL26-R": 2, "RU26": 4, "BC190": 16, "BT516-1": 16, "NT516": 16,
    }
    assert {place.partition(":")[0] for line in pack.comes_off if line.part == "RL26-L" for place in line.places} == {
        "B1-R-roof", "B18-L-roof",
    }


def test_a_part_that_changes_its_place_comes_off_and_goes_on():
    stands = document(*G26)
    moved = OneOff("move", "H4-tie:tie:1", "Runa Holt", "a sprayer", "2026-03-02", target_2="H5")
    configuration = choose(family("g26-d"), length_in=864, one_offs=[moved])
    pack = add_on(stands, compute(family("g26-d"), configuration, sha256="0" * 64))
    assert [(line.part, line.places) for line in pack.comes_off if line.part == "TI26"] == [("TI26", ("H4-tie:tie:1",))]
    assert [(line.part, line.places) for line in pack.lines if line.part == "TI26"] == [("TI26", ("H5-tie:tie:1",))]


def test_a_band_that_stays_and_moves_along_its_tube_is_said():
    stands = document(*G26)
    moved = OneOff("move", "B1-L-side:brace:1", "Runa Holt", "a door", "2026-03-02", by_in=3.0)
    pack = add_on(stands, compute(family("g26-d"), choose(family("g26-d"), length_in=864, one_offs=[moved]), sha256="0" * 64))
    assert not pack.lines
    assert not pack.comes_off
    brace = next(brace for brace in stands.braces if brace.id == "B1-L-side:brace:1")
    by = {one.joint: one.now_in - one.was_in for one in pack.shifted}
    assert set(by) == {brace.landing_from.joint, brace.landing_to.joint}
    # The end that is set goes just so far; the other comes to lie where the made length reaches.
    set_end = brace.landing_from if brace.landing_from.set else brace.landing_to
    assert by[set_end.joint] == pytest.approx(3.0)


def test_what_the_maker_left_out_stays_out():
    left_out = OneOff("leave out", "H3-tie:tie:1", "Runa Holt", "a gable fan", "2026-03-02")
    with_it = choose(family("g26-d"), length_in=864, with_=["snow-ties"])
    stands = document(*G26)
    pack = add_on(stands, compute(family("g26-d"), replace(with_it, one_offs=(left_out,)), sha256="0" * 64))
    assert next(line.count for line in pack.lines if line.part == "TI26") == 7


def test_marks_are_those_of_the_new_pieces_only():
    pack = add_on(*snow())
    assert [(mark.name, mark.code, mark.side, mark.hoops) for mark in pack.marks] == [
        ("tie band", "tie", "both", (3, 5, 7, 9, 11, 13, 15, 17))
    ]
    stands = {(mark.code, mark.name) for mark in snow()[0].marks}
    assert ("tie", "tie band") in stands      # on the even hoops, which need no mark again


def test_landings_are_those_of_the_document_with_the_option():
    stands, wanted = snow()
    ties = {tie.id: tie for tie in wanted.ties}
    assert all(piece == ties[piece.id] for piece in add_on(stands, wanted).pieces)
    assert {piece.hoop for piece in add_on(stands, wanted).pieces} == {3, 5, 7, 9, 11, 13, 15, 17}


def slipping(doc):
    """The same document whose tie bands only slip over the end of a tube."""
    return replace(doc, hardware=tuple(
        replace(hardware, goes_on="slips over an end") if hardware.code == "tie-band" else hardware for hardware in doc.hardware
    ))


def test_a_band_that_only_slips_over_an_end_needs_a_section_off():
    stands, wanted = (slipping(doc) for doc in snow())
    said = str(add_on(stands, wanted).impossible)
    assert said.startswith("The tie band only slips over the end of a tube, and the tube at H3-L-tie, H3-R-tie, ")
    # Ties lie at 13-4 from the foot and the lower section ends at 12-0: on the roof section.
    on_roof = {m.id for m in wanted.members if m.role == "section" and m.part == "HS26-R" and m.hoop in (3, 17)}
    assert all(ident in said for ident in on_roof)
    assert "H3-L-foot:section:1" not in said


def test_a_band_that_slips_and_is_there_already_is_in_nobodys_way():
    stands = slipping(document(*G26))
    assert not add_on(stands, slipping(document(*G26, ("film",)))).impossible


def test_places_that_differ_are_named_where_the_pack_touches_their_hoop():
    pack = add_on(*snow(), changed=["H4-tie", "H5-tie", "B2-L-side"])
    assert pack.look == ("H5-tie",)


def test_two_structures_are_no_pack():
    with pytest.raises(ValueError, match="its length can't be 864"):
        add_on(document("g26-d", 72), document("g26-d", 48))
    with pytest.raises(ValueError, match="its family can't be G26 and G20"):
        add_on(document("g26-d", 48), document("g20-b", 48))


def test_with_nothing_more_a_pack_is_empty():
    assert add_on(document(*G26), document(*G26)).empty
