"""What the customer brings: only what this structure needs, in figures worked out here."""

import math

import pytest

from structures.frame.spacers import spacer_boards, spacers
from tests.structures.family_texts import changed
from tests.structures.test_sequence import full, of_text


def said(doc):
    return [str(thing) for thing in doc.bring]


def about(doc, word):
    return [thing for thing in said(doc) if word in thing]


def test_spacer_boards_are_the_spacing_less_the_hoops_diameter():
    """48 in. less 1.9 in. is 46.1 in."""
    doc = full("g26-d", 48)
    assert about(doc, "spacer") == ["4 spacer boards, each cut to 3-10 1/8: the spacing less the hoop's diameter."]
    boards = spacer_boards(doc)
    assert boards.clear_gap_in == pytest.approx(46.1)
    assert boards.totals_in == tuple(48.0 * n for n in range(13))


@pytest.mark.parametrize(("hoops", "count"), [(1, 0), (2, 2), (3, 4), (25, 4)])
def test_a_pair_holds_the_bay_that_is_set_and_a_pair_the_one_before(hoops, count):
    assert spacers(hoops, 48, 1.9).count == count


def test_string_and_tape_are_as_long_as_the_plan_asks():
    """48 ft by 26 ft: 148 ft around; the diagonal is the root of 48 x 48 + 26 x 26, 54.589 ft."""
    doc = full("g26-d", 48)
    assert about(doc, "String") == ["String for the outline, 148-0 and some to tie."]
    tape = next(thing for thing in doc.bring if "tape" in thing.template)
    assert tape.values["diagonal_in"] == pytest.approx(12 * math.hypot(48, 26))


def test_tools_come_from_the_parts_that_are_driven():
    doc = full("g26-d", 48)
    tools = {line.tool for line in doc.lines if line.tool}
    assert len(tools) == 3
    assert [thing.split(", for: ")[0] for thing in said(doc) if ", for: " in thing] == list(
        dict.fromkeys(line.tool for line in doc.lines if line.tool))


def test_a_part_without_a_tool_asks_for_none():
    text = "\n".join(line for line in changed().splitlines() if not line.startswith("tool = "))
    assert not about(of_text(text, 48), ", for: ")


def test_boards_that_are_not_in_the_order_are_the_customers_own():
    text = changed()
    own = about(of_text(text, 48), "customer's own")
    assert [thing for thing in own if " board " in thing] == [
        f"A {name} board along both sides, 48-0 each, the customer's own in this order: fixed once the frame is tight."
        for name in ("hip", "base")]
    assert not [thing for thing in about(of_text(text, 48, with_=["boards"]), "customer's own") if " board " in thing]


def test_timber_is_for_the_ends_that_are_framed():
    doc = of_text(changed(), 48, ends=("framed", "open"))
    assert about(doc, "uprights") == [
        "For the tag end, 4 uprights: treated 2 x 4 uprights and door header, the customer's own."]


def test_a_door_that_is_not_in_the_kit_is_brought():
    text = changed()
    start = text.index("[end_walls.door.door]")
    text = text[:start] + text[start:].replace('fitting = "door"\n', "", 1)
    assert about(of_text(text, 48, ends=("door", "open")), "opening") == [
        "A door for the tag end, its opening 7-10 wide and 7-0 high."]


def test_sawing_is_counted_over_runs_runners_and_pipes():
    """Three runs end in a stick cut from 10-6 to 6 ft; a rolling base adds two runners, roll-up sides two pipes."""
    assert about(of_text(changed(), 48), "saw") == ["A saw and a file, for 3 cuts in PS131-106 tube, and zinc-rich paint for the cut ends."]
    rolling = about(full("g26-d", 48, "rolling"), "saw")[0]
    assert rolling.startswith("A saw and a file, for 7 cuts in PS131-106, RN237-21 and RP131-10 tube")


def test_the_ladder_is_said_as_a_height():
    doc = full("g26-d", 48)
    assert about(doc, "ladder") == ["A ladder: the highest joint lies 13-2 15/16 above the ground line."]


def test_cord_is_for_pieces_that_hang_and_a_drive_cap_for_posts():
    low = changed(('at = "12-0"', 'at = "3-6"'), ('length = "12-6"', 'length = "4-0"'), ('length = "17-7 15/16"', 'length = "34-7 15/16"'))
    assert about(of_text(low, 48), "Cord") == ["Cord, to tie up the loose end of each hung brace (4)."]
    assert not about(of_text(changed(), 48), "Cord")
    assert about(of_text(changed(), 48), "drive cap")
    assert not about(full("g26-d", 48, "rolling"), "drive cap")
