"""The order of work by example: what goes first and why, in a family that stands its sides first and one that raises whole hoops."""

import dataclasses
from functools import cache
from pathlib import Path

import pytest

from structures.frame.build import build_frame
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.family import OneOff
from structures.frame.reader import read_family
from structures.frame.sequence import make_sequence
from structures.frame.sequence.act import STAGES
from structures.frame.sequence.words import hoops_said
from tests.structures.families import family, fullest
from tests.structures.family_texts import changed

PRACTICE = Path(__file__).resolve().parents[1] / "outside" / "families" / "common_practice_30.toml"
SLIPS = 'goes_on = "opens"', 'goes_on = "slips over an end"'


@cache
def full(name, length_ft, base=None):
    """A document with every option that can be had."""
    made = family(name)
    configuration = fullest(made, length_ft * 12)
    if base:
        configuration = dataclasses.replace(configuration, base=base)
    return compute(made, configuration, sha256="0" * 64)


def of_text(text, length_ft, **asked):
    made = read_family(text, source="changed.toml")
    return compute(made, choose(made, length_in=length_ft * 12, **asked), sha256="0" * 64)


def place_of(doc):
    """The step's number of every place."""
    return {ident: step.step for step in doc.sequence for ident in (*step.pieces, *step.joints)}


def stages(doc):
    return list(dict.fromkeys(step.stage for step in doc.sequence))


def one(doc, stage, words=""):
    """The only step of a stage whose sentence has these words."""
    found = [step for step in doc.sequence if step.stage == stage and words in str(step.does)]
    assert len(found) == 1, [str(step.does) for step in doc.sequence if step.stage == stage]
    return found[0]


def fitting(code, **changes):
    """The text of one fitting set of g26-d before and after its keys are changed."""
    text = changed()
    start = text.index(f"[fittings.{code}]")
    block = text[start:text.index("\n\n", start)]
    other = block
    for key, value in changes.items():
        line = next(line for line in block.splitlines() if line.startswith(f"{key} = "))
        other = other.replace(line, f'{key} = "{value}"')
    return block, other


def test_a_family_that_stands_its_sides_first_braces_them_before_the_roof():
    assert stages(full("g26-d", 48)) == [
        "site", "base", "marks", "side sections", "braces before the roof", "roof sections", "ridge", "side purlins", "ties", "square",
        "roof braces", "tighten", "anchors", "boards", "end walls", "channel", "film", "roll-up", "blower", "later",
    ]


def test_a_family_that_raises_whole_hoops_joins_and_ties_them_on_the_ground():
    doc = full("g20-b", 48)
    assert stages(doc) == [
        "site", "base", "marks", "hoops", "ridge", "side purlins", "square", "side braces", "roof braces", "tighten", "anchors",
        "boards", "end walls", "channel", "film", "roll-up", "blower", "later",
    ]
    at = place_of(doc)
    raised = one(doc, "hoops", "Raise hoops 1 to 13")
    assert raised.pieces == ()
    assert all(at[member.id] < raised.step for member in doc.members if member.role == "section")
    assert all(at[tie.id] < raised.step for tie in doc.ties)
    assert {joint.id for joint in doc.joints if joint.kind == "bolt" and joint.station == "foot"} == set(raised.joints)


def test_every_stage_is_known_and_its_steps_follow_one_another():
    for name in ("g20-b", "g26-d", "g30-b", "r14-a"):
        order = [STAGES.index(step.stage) for step in full(name, 60).sequence]
        assert order == sorted(order)


@pytest.mark.parametrize(("name", "least", "most"), [("g30-b", 30, 60), ("g26-d", 30, 60), ("g20-b", 30, 60)])
def test_24_bays_with_every_option_make_a_list_that_a_crew_can_follow(name, least, most):
    assert least <= len(full(name, 96).sequence) <= most


def test_more_bays_make_no_more_steps():
    """Beyond what a long structure has more of: the mid-length braces of G30 stand from 72 ft on in both."""
    assert len(full("g30-b", 96).sequence) == len(full("g30-b", 288).sequence)


def test_the_ridge_run_comes_first_then_pairs_outward_from_it():
    doc = full("g30-b", 48)
    runs = [step for step in doc.sequence if step.stage in ("ridge", "side purlins")]
    words = [{ident.split(":")[0].split("-", 1)[1] for ident in step.pieces} for step in runs]
    assert words == [{"ridge"}] * 2 + [{"L-upper", "R-upper"}] * 2 + [{"L-purlin", "R-purlin"}] * 2
    assert all(runs[index].step in runs[index + 1].needs for index in range(len(runs) - 1))


def test_left_and_right_sticks_go_up_by_turns():
    doc = full("g26-d", 48)
    first = one(doc, "side purlins", "Put up")
    left = [ident for ident in first.pieces if "-L-" in ident]
    right = [ident for ident in first.pieces if "-R-" in ident]
    assert [ident.replace("-L-", "-R-") for ident in left] == right


def test_a_slip_joints_screw_and_a_connector_come_with_the_stick_that_they_hold():
    doc = full("g30-b", 96)
    at = place_of(doc)
    pieces = {member.id: member for member in doc.members}
    runs = [joint for joint in doc.joints if joint.kind == "connector" or (joint.kind == "screw" and joint.hoop is None
                                                                           and ":slip:" in joint.id)]
    assert len(runs) > 100
    for joint in runs:
        sticks = [pieces[ident] for ident in joint.holds if pieces[ident].role in ("stick", "end")]
        assert at[joint.id] == at[max(sticks, key=lambda stick: stick.start[1]).id]


def test_along_a_run_the_joints_are_told_from_the_tag_end():
    doc = full("g26-d", 48)
    where = {joint.id: joint.at[1] for joint in doc.joints}
    for step in doc.sequence:
        if step.stage in ("ridge", "side purlins"):
            along = [where[ident] for ident in step.joints]
            assert along == sorted(along)


def test_the_bands_of_a_purlin_end_come_with_it():
    doc = full("g26-d", 48)
    at = place_of(doc)
    ends = {member.id for member in doc.members if member.role == "end"}
    bands = [(joint, ident) for joint in doc.joints if joint.kind == "band" for ident in joint.holds if ident in ends]
    assert len(bands) == 2 * len(ends)
    assert all(at[joint.id] == at[end] for joint, end in bands)


def test_the_last_stick_goes_up_with_the_far_end_and_says_which_end_is_sawn():
    doc = full("g26-d", 48)
    step = one(doc, "ridge", "Close")
    # 48 ft less two feet of ends is 46 ft: four lays of 10 ft and 6 ft; of a stick of 10-6 that leaves 4-6.
    assert "saw it at its swaged end (computed 6-0, leaving 4-6;" in str(step.does)
    assert "put them up as one" in str(step.does)
    assert "Saw galvanised tube outdoors" in " ".join(map(str, step.cautions))
    assert [ident.split(":")[1] for ident in step.pieces] == ["stick", "end"]


def test_a_roof_chain_begins_at_the_ridge_left_and_right_alike():
    doc = full("g26-d", 48)
    step = one(doc, "roof braces", "at the tag end, left and right")
    assert [ident.split(":")[0] for ident in step.joints] == ["H3-L-high", "H3-R-high", "H2-L-roof", "H2-R-roof"]
    later = one(doc, "roof braces", "at the tag end, left, ")
    assert [ident.split(":")[0] for ident in later.joints] == ["H2-L-roof", "H1-L-shoulder"]
    assert step.step in later.needs


def test_a_roof_brace_whose_lower_end_has_its_section_waits_for_the_piece_above_it():
    """On G26 the shoulder lies on the side section, which stands long before."""
    doc = full("g26-d", 48)
    assert doc.stations["shoulder"] < 144 < doc.stations["roof"]
    assert one(doc, "roof braces", "at the tag end, left, ").how == "wait"


@pytest.mark.parametrize("name", ["g20-b", "g26-d", "g30-b", "r14-a"])
def test_the_end_that_is_turned_is_bolted_last(name):
    doc = full(name, 100)
    order = {ident: (step.step, place) for step in doc.sequence for place, ident in enumerate(step.joints)}
    for brace in doc.braces:
        ends = {"from": brace.landing_from.joint, "to": brace.landing_to.joint}
        assert max(ends, key=lambda end: order[ends[end]]) == brace.turned_end


def test_a_ridge_piece_that_was_left_out_is_not_spoken_of_as_one_of_a_pair():
    left_out = OneOff("leave out", "B2-R-roof:brace:1", "A. Owner", "asked for", "2024-03-01")
    doc = of_text(changed(), 48, with_=["roof-braces"], one_offs=[left_out])
    step = one(doc, "roof braces", "RU26 at H3-L-high")
    assert str(step.does).startswith("Bolt the roof brace at the tag end, left, finger-tight: RU26 at H3-L-high")
    assert "Both ridge landings" not in str(step.does)
    assert len(step.pieces) == 1


def test_a_brace_that_was_added_has_its_own_step_by_its_side():
    """Its made length of 49 3/8 in. over 48 in. less two holes of 1 5/8 in. rises by 20.86 in."""
    added = OneOff("add", "H5-L-foot", "A. Owner", "asked for", "2024-03-01", target_2="H6-L-low", part="SB26")
    doc = of_text(changed(('hip = "4-6"\n', 'hip = "4-6"\nlow = "28.86 in"\n')), 48, one_offs=[added])
    step = one(doc, "braces before the roof", "on the left")
    assert [ident.split(":")[0] for ident in step.joints] == ["H5-L-foot", "H6-L-low"]


def test_bands_that_slip_over_an_end_go_on_before_their_section_is_stood_or_joined():
    doc = of_text(changed(fitting("brace-band", goes_on="slips over an end"), fitting("end-band", goes_on="slips over an end")), 48)
    at = place_of(doc)
    slipped = [joint for joint in doc.joints if joint.fitting in ("brace-band", "end-band")]
    assert len(slipped) == 2 * 16 + 2 * 6
    sections = {member.id for member in doc.members if member.role == "section"}
    for joint in slipped:
        for ident in joint.holds:
            assert at[joint.id] < at[ident]
            if ident in sections:
                assert at[joint.id] in doc.sequence[at[ident] - 1].needs
    sides, roofs = (one(doc, stage, "Slide on") for stage in ("side sections", "roof sections"))
    assert "before the side sections are stood" in str(sides.why)
    assert "before the roof sections are joined to the sides" in str(roofs.why)
    assert "the band at H3-L-foot, H2-L-mid, H2-L-mid and H1-L-brace-hip is on already" in str(
        one(doc, "braces before the roof", "at the tag end, left").does)


def test_on_whole_hoops_they_go_on_before_the_sections_are_joined():
    text = changed(name="g20-b")
    start = text.index("[fittings.tie-band]")
    text = text[:start] + text[start:].replace(*SLIPS, 1)
    doc = of_text(text, 48)
    slide, join = one(doc, "hoops", "Slide on"), one(doc, "hoops", "Join the sections")
    assert len(slide.joints) == 2 * len(doc.ties) == 12
    assert slide.step in join.needs
    ties = one(doc, "hoops", "Bolt the ties")
    assert (ties.joints, len(ties.pieces)) == ((), 6)
    assert slide.step in ties.needs


def test_all_is_finger_tight_until_it_is_tightened_from_one_end():
    doc = full("g26-d", 48)
    tighten = one(doc, "tighten")
    assert (tighten.pieces, tighten.joints) == ((), ())
    kinds = {joint.id: joint.kind for joint in doc.joints}
    after = {kinds[ident] for step in doc.sequence[tighten.step:] for ident in step.joints}
    assert not after & {"band", "connector", "bolt"}
    assert "from the tag end to the far end" in str(tighten.does)


def test_film_comes_after_all_that_holds_it_and_the_inner_sheet_before_the_outer():
    doc = full("g26-d", 48)
    film = [step for step in doc.sequence if step.stage == "film"]
    assert ["inner" in str(step.does) for step in film] == [True, False]
    for step in film:
        before = {doc.sequence[need - 1].stage for need in step.needs}
        assert {"tighten", "boards", "end walls", "channel", "anchors"} <= before


def test_on_a_rolling_base_the_runners_lie_before_the_feet_stand_on_them():
    doc = full("g26-d", 48, "rolling")
    at = place_of(doc)
    runners = one(doc, "base")
    assert "Lay a runner along each side" in str(runners.does)
    stood = one(doc, "side sections")
    assert runners.step in stood.needs
    assert {at[joint.id] for joint in doc.joints if joint.kind == "wheel"} == {stood.step}
    assert not any(member.role == "post" for member in doc.members)


def test_webs_follow_their_ties():
    doc = full("g30-b", 48)
    at = place_of(doc)
    webs = {member.id for member in doc.members if member.role == "web"}
    tied = [(ident, tie) for joint in doc.joints for ident in joint.holds if ident in webs for tie in joint.holds if ":tie:" in tie]
    assert len(tied) == len(webs) > 0
    assert all(at[tie] < at[web] for web, tie in tied)


def test_a_role_and_a_kind_that_nobody_foresaw_still_get_their_steps():
    made = family("g26-d")
    frame = build_frame(made, choose(made, length_in=576))
    hoop, board = frame.members[0], dataclasses.replace(frame.members[-1], id="H1-L-foot:mud-sill:1", role="mud-sill", hoop=None)
    lone = dataclasses.replace(frame.joints[0], id="B1-L-vent:flap:1", code="B1-L-vent", kind="flap", holds=(), hoop=None)
    held = dataclasses.replace(frame.joints[0], id="H1-L-foot:cleat:1", kind="cleat", holds=(hoop.id, board.id))
    frame.members.append(board)
    frame.joints += [lone, held]
    steps = make_sequence(frame)
    at = {ident: step for step in steps for ident in (*step.pieces, *step.joints)}
    assert at[board.id].stage == at[lone.id].stage == "fittings"
    assert str(at[board.id].does).startswith("Fit the mud sills: 1 purlin end PE131-10; ")
    assert at[held.id] == at[board.id]
    assert at[hoop.id].step in at[board.id].needs


# --- What is said ----------------------------------------------------------------------------------


def test_sentences_are_made_from_the_frames_own_figures():
    doc = full("g26-d", 48)
    assert str(one(doc, "side sections").does) == (
        "Stand the side sections of hoops 1 to 13, left and right, on their posts: 26 hoop sections HS26-S, swaged ends up; 26 foot "
        "bolts (bolt points in, nut inside), nuts loose. A spacer board of 3-10 1/8 holds each gap.")
    # 48 ft and 26 ft: the diagonal is the root of 576 x 576 + 312 x 312, 655.07 in.
    assert "Both diagonals measure 54-7 1/16." in str(one(doc, "site", "Set out").does)


def test_they_can_be_told_in_millimetres():
    does = one(full("g26-d", 48), "side sections").does
    assert "A spacer board of 1171 mm holds each gap." in does.in_units("metric")     # 46.1 in. x 25.4


def test_which_way_bolts_point_is_said_wherever_they_go_in():
    doc = full("g26-d", 48)
    nuts = {line.part for line in doc.lines if line.role == "nut"}
    bolted = {one.code for one in doc.hardware if nuts & {part for part, _ in one.parts}}
    said = {one.code: f"bolt points {one.bolt_points}, nut {one.nut}" for one in doc.hardware if one.code in bolted}
    fittings = {joint.id: joint.fitting for joint in doc.joints}
    checked = 0
    for step in doc.sequence:
        for code in {fittings[ident] for ident in step.joints} & bolted:
            assert said[code] in str(step.does)
            checked += 1
    assert checked > 15
    assert "all nuts down" in str(one(doc, "ridge", "Put up").does)


def test_stops_say_what_is_not_yet_in_and_never_that_it_may_be_left():
    doc = full("g26-d", 48)
    stops = {step.stage: str(step.not_yet) for step in doc.sequence if step.not_yet}
    assert stops["roof sections"].startswith("Not yet in: ridge purlin; side purlins, left and right; ties; roof braces; ")
    assert stops["roof sections"].endswith(" Nothing is tight yet.")
    assert stops["ties"].startswith("Not yet in: roof braces; ")
    assert stops["tighten"].startswith("Not yet in: ground anchors; ")
    assert "tight yet" not in stops["tighten"]
    assert set(stops) == set(stages(doc)) - {"site", "marks", "square", "blower", "later"}
    assert all(text.startswith("Not yet in: ") for text in stops.values())
    last = {step.stage: step.step for step in doc.sequence}
    assert all(step.step == last[step.stage] for step in doc.sequence if step.not_yet)


def test_there_is_no_stop_while_a_piece_hangs_by_one_end():
    """With the seam of G26 lowered to 3-6 the side chain ends above it on hoop 1."""
    text = changed(('at = "12-0"', 'at = "3-6"'), ('length = "12-6"', 'length = "4-0"'), ('length = "17-7 15/16"', 'length = "34-7 15/16"'))
    doc = of_text(text, 48)
    hung = [step for step in doc.sequence if step.how == "hang and tie"]
    swung = [step for step in doc.sequence if step.stage == "hung braces"]
    assert (len(hung), len(swung)) == (4, 4)
    assert not any(step.not_yet for step in doc.sequence[hung[0].step - 1:swung[-1].step - 1])
    assert "ridge purlin" in str(swung[-1].not_yet)
    assert all("Tie the loose end at once" in " ".join(map(str, step.cautions)) for step in hung)


CAUTIONS = [
    ("base", "Drive the 4 corner posts", "buried services"),
    ("side sections", "", "Look up before lifting long tube: stay 10-0 or more off every line."),
    ("roof sections", "", "a ladder and two people"),
    ("ridge", "Put up", "a ladder and two people"),
    ("ridge", "Put up", "Nobody climbs on or hangs from purlins, ties or hoops."),
    ("braces before the roof", "at the far end, right", "If it won't meet, stop: check the spacing, then the length."),
    ("roof braces", "at the tag end, left and right", "a ladder and two people"),
    ("tighten", "", "Don't loosen a bolt on a bent or leaning frame."),
    ("tighten", "", "The work reaches 13-2 15/16 above the ground: a ladder and two people."),
    ("end walls", "at hoop 1,", "a ladder and two people"),
    ("channel", "Tape every joint", "a ladder and two people"),
    ("later", "first blow", "Leave first and report second at a kink, a creak, a lean, a smell of gas, water near power, or anything"),
    ("later", "first month", "Leave first and report second"),
    ("anchors", "", "Local codes, the maker and licensed practice decide"),
    ("film", "inner", "No film in wind, and none on a half-braced frame."),
    ("blower", "", "licensed practice"),
]


@pytest.mark.parametrize(("stage", "words", "caution"), CAUTIONS)
def test_a_caution_stands_on_the_step_that_it_belongs_to(stage, words, caution):
    assert caution in " ".join(map(str, one(full("g26-d", 48), stage, words).cautions))


def test_where_nothing_is_driven_the_hoops_are_set_out_from_hoop_1_with_the_corners():
    """Hoops 6 ft apart on no posts and no runner."""
    said = str(of_text(PRACTICE.read_text(encoding="utf-8"), 48).sequence[1].does)
    assert said.endswith("From the middle of hoop 1: 6-0 to hoop 2, 12-0 to hoop 3, 18-0 to hoop 4, 48-0 to hoop 9.")
    driven = [str(step.does) for step in full("g26-d", 48).sequence if "From the middle of hoop 1" in str(step.does)]
    assert [text[:43] for text in driven] == ["Pull a line from corner post to corner post"]


def test_three_people_raise_a_hoop_20_ft_wide_and_not_one_of_14():
    assert "three or more people" in " ".join(map(str, one(full("g20-b", 48), "hoops", "Raise").cautions))
    assert "three or more people" not in " ".join(map(str, one(full("r14-a", 40), "hoops", "Raise").cautions))


@pytest.mark.parametrize(
    ("hoops", "said"),
    [([3], "hoop 3"), ([3, 4], "hoops 3 and 4"), ([1, 2, 3], "hoops 1 to 3"), ([2, 4, 6], "hoops 2, 4, ... 6"),
     ([2, 5, 6], "hoops 2, 5 and 6"), ([6, 2, 4, 4], "hoops 2, 4, ... 6")],
)
def test_hoops_in_words(hoops, said):
    assert hoops_said(hoops) == said
