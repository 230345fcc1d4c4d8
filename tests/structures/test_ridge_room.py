"""The ridge: bands set first and equally far out, with room for the connector between; and slip joints clear of connectors."""

import dataclasses
import math

import pytest

from structures.frame.build import build_frame
from structures.frame.choose import choose
from structures.frame.family import OneOff, Station
from structures.frame.refusal import Refused
from tests.structures.family_texts import changed, sentences
from tests.structures.frames import family


def crowded(name, from_ridge_in, **fittings):
    """A demo family with the landing nearest the ridge so far from it, braces of any length, and other widths of fittings."""
    fam = family(name)
    half = fam.developed_in / 2
    stations = {**fam.stations, "high": Station("high", half - from_ridge_in, "")}
    parts = {n: dataclasses.replace(p, length_in=None) if p.role.startswith("roof") else p for n, p in fam.parts.items()}
    sets = {code: dataclasses.replace(fam.fittings[code], width_in=width) for code, width in fittings.items()}
    return dataclasses.replace(fam, stations=stations, parts=parts, fittings={**fam.fittings, **sets})


def built(fam, **asked):
    return build_frame(fam, choose(fam, length_in=576, **asked))


def refused(fam):
    with pytest.raises(Refused) as caught:
        built(fam)
    return [str(refusal) for refusal in caught.value.refusals]


def test_a_band_that_leaves_the_connector_no_room_is_refused_with_the_room_needed():
    """Half a connector of 4 in. and half a band of 1 1/4 in.: 2 5/8 in. from the ridge to the band's middle."""
    assert refused(crowded("g26-d", 2.0, connector=4.0)) == [
        "The brace band at H3-L-high and H3-R-high lies 0-2 from the ridge and leaves no room for the cross connector: 0-2 5/8 or more, "
        "equally far left and right, would do."
    ]


def test_near_a_bend_the_crown_asks_for_more_than_the_connector():
    """The G26's bands stay 1 1/2 in. from its crown, more than half a connector and half a band of 1 1/4 in. each; said once."""
    assert refused(crowded("g26-d", 1.375)) == [
        "The brace band at H3-L-high and H3-R-high lies 0-1 3/8 from the ridge and leaves no room for the cross connector: 0-1 1/2 or "
        "more, equally far left and right, would do."
    ]


@pytest.mark.parametrize(("from_ridge", "width", "fits"), [(2.625, 4.0, True), (2.62, 4.0, False), (1.5, 1.25, True), (1.49, 1.25, False)])
def test_the_room_needed_is_enough_and_a_little_less_is_not(from_ridge, width, fits):
    fam = crowded("g26-d", from_ridge, connector=width)
    if fits:
        frame = built(fam)
        bands = [j for j in frame.joints if j.hoop == 3 and j.station == "high"]
        assert {round(fam.developed_in / 2 - j.from_foot_in, 9) for j in bands} == {from_ridge}
        assert {j.side for j in bands} == {"left", "right"}
    else:
        assert all("leaves no room for the cross connector" in said for said in refused(fam))


@pytest.mark.parametrize("name", ["g20-b", "g26-d", "g30-b"])
def test_the_bands_nearest_the_ridge_are_set_and_symmetric_about_the_connector(name):
    frame = built(family(name))
    tops = [max((b.landing_from, b.landing_to), key=lambda landing: landing.from_foot_in) for b in frame.braces if b.role == "roof-upper"]
    assert len(tops) == 4
    assert all(landing.set for landing in tops)
    assert {round(frame.half_in - landing.from_foot_in, 9) for landing in tops} == {12}
    by_hoop = {landing.hoop: sum(x.hole[0] for x in tops if x.hoop == landing.hoop) for landing in tops}
    assert all(middle == pytest.approx(0) for middle in by_hoop.values())


def test_two_sides_that_a_one_off_makes_unequal_are_warned_about():
    one_off = OneOff("move", "B2-L-roof:brace:1", "Olive Barrow", "a fan hangs there", "2026-03-01", by_in=-1.0)
    out = OneOff("leave out", "B1-L-roof:brace:1", "Olive Barrow", "a fan hangs there", "2026-03-01")
    said = [str(warning) for warning in built(family("g26-d"), one_offs=(out, one_off)).warnings]
    assert said == [
        "The brace band at H3-L-high lies 1-1 from the ridge and the one at H3-R-high 1-0: set both first, equally far out."
    ]


def test_a_slip_joint_nearer_its_connector_than_the_family_allows_is_listed():
    """The end's lay of 12 in. and sticks of 10 ft: mouths at 12, 132, 252, 372, 492 and 564 in., hoops every 48 in. The nearest
    connectors are 12 in. away, so 13 in. lists every one of them and 12 in. none."""
    fam = family("g26-d")
    mouths = [12, 132, 252, 372, 492, 564]
    hoops = [48 * n for n in range(1, 12)]
    nearest = {mouth: min(hoops, key=lambda y: abs(y - mouth)) for mouth in mouths}
    near = [(mouth, y) for mouth, y in nearest.items() if abs(mouth - y) < 13]
    runs = tuple(dataclasses.replace(run, joint_clear_in=13.0) if run.code == "ridge" else run for run in fam.runs)
    said = [str(warning) for warning in built(dataclasses.replace(fam, runs=runs)).warnings]
    assert said == [f"The ridge purlin has a slip joint 1-0 from its connector on hoop {y // 48 + 1}, nearer than 1-1." for _, y in near]
    assert len(near) == 4
    assert all(math.isclose(abs(mouth - y), 12) for mouth, y in near)
    assert not built(fam).warnings


@pytest.mark.parametrize(("pair", "said"), [
    (("near_swaged = true", "near_swaged = false"),
     "runs.ridge.near_swaged = false: the tag-end fitting and the first stick face each other with two plain ends"),
    (("far_swaged = true", "far_swaged = false"),
     "runs.ridge.far_swaged = false: the far-end fitting and the last stick face each other with two plain ends"),
])
def test_two_plain_ends_that_face_each_other_in_a_run_are_refused(pair, said):
    assert any(sentence.startswith(said) for sentence in sentences(changed(pair)))


def test_left_and_right_runs_are_alike_and_say_which_end_to_saw():
    cuts = {cut.run: cut for cut in built(family("g30-b")).cuts}
    for run in ("purlin", "upper"):
        assert dataclasses.replace(cuts[f"L-{run}"], run="") == dataclasses.replace(cuts[f"R-{run}"], run="")
        assert cuts[f"L-{run}"].saw_end == "swaged"
