"""Purlin runs: which end of the last stick is sawn and to what, slip joints, and a last stick with no room for its joints.

The arithmetic is written out here: sticks of 10-6 with a 6 in. swage lay 10 ft, and purlin ends take 12 in. at each end of a run.
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structures.frame.build import build_frame
from structures.frame.build.purlins import joints_take, last_lay
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.refusal import Refused
from structures.frame.trial import try_out
from tests.structures.frames import document, family

OTHER_END = {"saw_end": "plain", "far_swaged": False}                                 # away from the tag end, sawn at the plain end
TURNED = {"swages_point": "toward", "saw_end": "plain", "near_swaged": False}         # sticks the other way round


def with_runs(name, **more):
    made = family(name)
    return replace(made, runs=tuple(replace(run, **more) for run in made.runs))


def built(made, feet):
    return build_frame(made, choose(made, length_in=feet * 12))


@pytest.mark.parametrize(("feet", "sticks", "lay"), [(24, 3, 24), (48, 5, 72), (72, 7, 120), (96, 10, 48), (100, 10, 96), (300, 30, 96)])
def test_the_last_stick_covers_what_the_whole_ones_leave(feet, sticks, lay):
    assert (sticks - 1) * 120 + lay == feet * 12 - 24
    for cut in document("g26-d", feet).cuts:
        assert (cut.sticks, cut.lay_in) == (sticks, pytest.approx(lay))


def test_a_last_stick_sawn_at_its_swaged_end_is_as_long_as_it_covers():
    for cut in document("g26-d", 48).cuts:
        assert (cut.saw_end, cut.cut_length_in, cut.offcut_in) == ("swaged", pytest.approx(72), pytest.approx(126 - 72))


@pytest.mark.parametrize("more", [OTHER_END, TURNED], ids=["away", "toward"])
def test_a_last_stick_sawn_at_its_plain_end_keeps_its_swage(more):
    frame = built(with_runs("g26-d", **more), 48)
    for cut in frame.cuts:
        assert (cut.saw_end, cut.cut_length_in, cut.offcut_in) == ("plain", pytest.approx(72 + 6), pytest.approx(126 - 78))
    last = [m for m in frame.members if m.role == "stick"][cut.sticks - 1]
    assert last.length_in == pytest.approx(78)


@pytest.mark.parametrize("name", ["g20-b", "g26-d", "g30-b"])
@pytest.mark.parametrize("feet", [24, 48, 96, 252])
def test_left_and_right_runs_are_alike(name, feet):
    doc = document(name, feet)
    cuts = {cut.run: cut for cut in doc.cuts}
    for run in {name.removeprefix("L-") for name in cuts if name.startswith("L-")}:
        left, right = cuts[f"L-{run}"], cuts[f"R-{run}"]
        assert replace(left, run="") == replace(right, run="")
        def sticks(side, run=run):
            return [(m.id.replace(f"-{side}-", "--"), m.part, m.role, m.length_in, abs(m.start[0]), *m.start[1:], abs(m.end[0]), *m.end[1:])
                    for m in doc.members if f"-{side}-{run}:" in m.id]
        assert sticks("L") == sticks("R")
        assert len(sticks("L")) == left.sticks + 2


def test_what_a_run_is_told_as_is_what_its_sticks_are():
    doc = document("g30-b", 96)
    for cut in doc.cuts:
        side, _, run = cut.run.rpartition("-")
        sticks = [m for m in doc.members if m.role == "stick" and m.id.split(":")[0].endswith(f"-{cut.run}" if side else f"-{run}")
                  and ("-L-" in m.id or "-R-" in m.id) == bool(side)]
        assert len(sticks) == cut.sticks
        assert sticks[-1].length_in == pytest.approx(cut.cut_length_in)
        assert {m.length_in for m in sticks[:-1]} == {cut.stick_in}


@pytest.mark.parametrize(("feet", "end_lay", "lay", "would"), [
    # 24 ft less two ends of 18 1/2 in. is 20-11: two lays of 10 ft and 11 in., and two swages want 12 in. 28 ft leaves 4-11.
    (24, 18.5, 11.0, "28-0"),
    # 44 ft less two ends of 22 in. is 40-4: the fifth stick would lie 4 in. 40 ft leaves 6-4 and 48 ft 4-4.
    (44, 22.0, 4.0, "40-0 or 48-0"),
])
def test_a_last_stick_with_no_room_for_its_swages_is_refused_with_the_nearest_lengths(feet, end_lay, lay, would):
    made = with_runs("g26-d", end_lay_in=end_lay)
    with pytest.raises(Refused) as refused:
        built(made, feet)
    assert {(refusal.code, refusal.field) for refusal in refused.value.refusals} == {("stick-short", "length")}
    assert str(refused.value.refusals[0]) == (
        f"The last stick of the ridge purlin would lie 0-{lay:g} between its joints, and their swages take 1-0: a length of {would} "
        "would do.")
    assert len(refused.value.refusals) == 2       # the ridge run, and the side runs once


def test_a_last_stick_of_just_two_swages_stands():
    # 24 ft less two ends of 18 in. is 21 ft: the third stick lies 12 in.
    made = with_runs("g26-d", end_lay_in=18.0)
    assert {cut.lay_in for cut in built(made, 24).cuts} == {12.0}


def test_a_last_stick_that_gives_its_own_swage_to_the_far_end_needs_room_for_one_only():
    made = with_runs("g26-d", end_lay_in=18.5, **OTHER_END)
    assert joints_take(made.runs[0]) == 6
    assert {round(cut.lay_in, 6) for cut in built(made, 24).cuts} == {11.0}


def test_a_size_whose_last_stick_is_too_short_is_no_fault_of_the_file():
    try_out(with_runs("g26-d", end_lay_in=18.5))


@given(bays=st.integers(1, 75), end_lay=st.floats(6, 30), swage=st.floats(1, 12))
def test_lays_of_a_run_add_up_to_its_length(bays, end_lay, swage):
    run = replace(family("g26-d").runs[0], end_lay_in=end_lay, swage_in=swage)
    length, lay = bays * 48.0, 126 - swage
    last = last_lay(run, length)
    if length > 2 * end_lay:
        assert 0 < last <= lay + 1e-6
        assert (length - 2 * end_lay - last) / lay == pytest.approx(round((length - 2 * end_lay - last) / lay), abs=1e-6)


def test_slip_joints_near_a_connector_are_listed_with_both_figures():
    made = with_runs("g26-d", joint_clear_in=14.0)
    doc = compute(made, choose(made, length_in=24 * 12), sha256="")
    said = sorted(str(warning) for warning in doc.warnings)
    # mouths at 1, 11, 21 and 23 ft, connectors at 4, 8, 12, 16 and 20 ft: 11 is 1 ft from 12, and 21 from 20
    assert said == sorted(f"The {run} has a slip joint 1-0 from its connector on hoop {hoop}, nearer than 1-2."
                          for run in ("ridge purlin", "side purlin") for hoop in (4, 6))
