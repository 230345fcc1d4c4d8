"""Facts of the trade on a structure 30 ft wide, 48 ft long, 6 ft spacing. All of them: common practice, no source.

The shape is invented so that all can be true at once. The structure is described in families/common_practice_30.toml
beside this file and asked for through the command that an owner would type.
"""

import json
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
ASKED = ["kit", "tests/outside/families/common_practice_30.toml", "--length", "48ft", "--spacing", "6ft",
         "--base", "fixed", "--ends", "framed,framed", "--with", "roof-braces"]


def command(*words):
    return subprocess.run([sys.executable, "manage.py", *words], cwd=ROOT, capture_output=True, text=True, check=False)


@pytest.fixture(scope="module")
def kit():
    done = command(*ASKED, "--json")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def count(kit, role):
    return sum(line["needed"] for line in kit["lines"] if line["role"] == role)


def test_48_ft_at_6_ft_spacing_has_9_hoops(kit):
    assert (kit["measures"]["bays"], kit["measures"]["hoops"]) == (8, 9)
    assert kit["measures"]["width_in"] == 30 * 12


def test_framed_metal_end_walls_take_the_place_of_the_end_hoops_ties(kit):
    """Leaving 7 ties, each a single piece of 12 ft."""
    assert [tie["from"].split("-")[0] for tie in kit["ties"]] == [f"H{n}" for n in range(2, 9)]
    assert {tie["length_in"] for tie in kit["ties"]} == {144.0}
    assert count(kit, "tie") == 7


def test_open_ends_keep_the_end_hoops_ties():
    words = [word if word != "framed,framed" else "open,open" for word in ASKED]
    assert len(json.loads(command(*words, "--json").stdout)["ties"]) == 9


def test_two_side_brace_pieces_in_each_corner_make_8_and_roof_braces_likewise(kit):
    zones = Counter((brace["zone"], brace["corner"]) for brace in kit["braces"])
    corners = ("tag left", "tag right", "far left", "far right")
    assert zones == {(zone, corner): 2 for zone in ("side", "roof") for corner in corners}


def test_the_side_chain_runs_from_the_foot_of_hoop_3_over_the_middle_of_hoop_2_to_the_top_of_hoop_1(kit):
    """It ends above the seam."""
    ends = {(b["from"], b["to"]) for b in kit["braces"] if b["zone"] == "side" and b["corner"] == "tag right"}
    joined = {code.split("-R-")[0]: code.split("-R-")[1] for pair in ends for code in pair}
    assert set(joined) == {"H1", "H2", "H3"}
    assert (joined["H3"], joined["H2"]) == ("foot", "mid")
    top = max(landing["from_foot_in"] for b in kit["braces"] if b["zone"] == "side"
              for landing in (b["landing_from"], b["landing_to"]))
    seam = next(mark["from_foot_in"] for mark in kit["marks"] if mark["kind"] == "seam")
    assert seam == 54
    assert top > seam + 1.25 / 2


def test_the_roof_chain_runs_from_above_the_shoulder_of_hoop_1_over_hoop_2_to_the_ridge_of_hoop_3(kit):
    landings = [landing for b in kit["braces"] if b["zone"] == "roof" and b["corner"] == "tag left"
                for landing in (b["landing_from"], b["landing_to"])]
    by_hoop = {landing["hoop"]: landing["node_in"] for landing in landings}
    assert by_hoop[1] < by_hoop[2] < by_hoop[3]
    assert by_hoop[3] == pytest.approx(kit["measures"]["ridge_mark_in"] - 6, abs=0.1)
    assert by_hoop[2] == pytest.approx((by_hoop[1] + by_hoop[3]) / 2, abs=0.2)


def test_three_purlin_runs_are_held_by_21_connectors_and_6_purlin_ends_of_two_bands(kit):
    assert {cut["run"] for cut in kit["cuts"]} == {"ridge", "L-purlin", "R-purlin"}
    assert count(kit, "connector") == 21
    assert count(kit, "end") == 6
    ends = [m for m in kit["members"] if m["role"] == "end"]
    assert {m["length_in"] for m in ends} == {12.0}
    held = Counter(joint["holds"][0] for joint in kit["joints"] if joint["kind"] == "band")
    assert {held[member["id"]] for member in ends} == {2}


def test_the_side_run_lies_about_76_inches_above_the_seam_along_the_tube(kit):
    run = next(m["from_foot_in"] for m in kit["marks"] if (m["code"], m["kind"]) == ("purlin", "connector"))
    seam = next(m["from_foot_in"] for m in kit["marks"] if m["kind"] == "seam")
    assert run - seam == pytest.approx(76, abs=0.5)


def test_so_there_are_58_bands(kit):
    """2 for each of 16 brace pieces, 7 ties and 6 purlin ends."""
    assert count(kit, "band") == 58 == 2 * (16 + 7 + 6)


def test_connectors_are_for_2_3_8_hoops_and_1_3_8_purlins(kit):
    assert kit["tubes"]["hoop"] == 2.375
    assert kit["tubes"]["stick"] == 1.375


def test_roof_braces_are_offered_and_not_bought_when_nobody_asks_for_them():
    plain = json.loads(command(*ASKED[:-2], "--json").stdout)
    answer = next(option for option in plain["options"] if option["code"] == "roof-braces")
    assert answer["included"] is False
    assert (answer["no_because"], answer["pieces"], answer["bands"]) == ("offered, not bought", 8, 16)
    assert count(plain, "band") == 58 - 16


# --- How it is put together: common practice, no source -------------------------------------------


def step_of(kit, ident):
    """The step that puts in a place."""
    return next(step for step in kit["sequence"] if ident in step["pieces"] or ident in step["joints"])


def hardware(kit, code):
    return next(one for one in kit["hardware"] if one["code"] == code)


def test_on_purlins_all_nuts_are_down(kit):
    held = {joint["fitting"] for joint in kit["joints"]
            if joint["kind"] in ("connector", "band") and joint["code"].endswith(("ridge", "purlin"))}
    assert held == {"connector", "end-band"}
    assert {(hardware(kit, code)["bolt_points"], hardware(kit, code)["nut"]) for code in held} == {("down", "below")}


def test_every_sleeve_has_one_screw(kit):
    """A run of n pieces of tube has n - 1 sleeves; every hoop here has two."""
    sticks = Counter(m["from"].split("-", 1)[1] for m in kit["members"] if m["role"] in ("stick", "end"))
    screws = Counter(j["code"].split("-", 1)[1] for j in kit["joints"] if j["kind"] == "screw" and j["hoop"] is None)
    assert screws == {run: count - 1 for run, count in sticks.items()}
    assert Counter(j["hoop"] for j in kit["joints"] if j["station"] == "seam") == dict.fromkeys(range(1, 10), 2)


def test_the_last_stick_of_each_run_is_cut_at_the_far_end_and_joined_to_the_far_purlin_end(kit):
    """46 ft are left between the one-foot ends: four lays of 10 ft and 6 ft over, sawn at the end that goes to the far one."""
    assert {(cut["sticks"], cut["lay_in"], cut["cut_length_in"], cut["saw_end"]) for cut in kit["cuts"]} == {(5, 72.0, 72.0, "swaged")}
    far = {m["id"]: m for m in kit["members"] if m["role"] in ("stick", "end")}
    for run in ("-ridge", "-L-purlin", "-R-purlin"):
        line = sorted((m for m in far.values() if m["from"].endswith(run)), key=lambda m: m["start"][1])
        last, end = line[-2], line[-1]
        step = step_of(kit, last["id"])
        assert end["id"] in step["pieces"]
        assert not {m["id"] for m in line[:-2]} & set(step["pieces"])
        assert "saw it at its {saw} end" in step["does"]["template"]


def test_the_ridge_run_is_up_before_the_side_runs(kit):
    steps = {word: [s["step"] for s in kit["sequence"] if any(i.split(":")[0].endswith(word) and i.split(":")[1] in ("stick", "end")
                                                              for i in s["pieces"])] for word in ("ridge", "purlin")}
    assert max(steps["ridge"]) < min(steps["purlin"])


def test_spacer_boards_hold_6_ft(kit):
    """72 in. less the hoop's 2 3/8 in. is 69 5/8 in."""
    boards = next(said["values"] for said in kit["bring"] if "spacer boards" in said["template"])
    assert boards["clear_gap_in"] == 72 - 2.375 == kit["measures"]["clear_gap_in"]


def test_the_lower_side_brace_goes_up_before_the_roof_and_the_upper_one_hangs_until_the_end_hoops_roof_section_is_on(kit):
    """The sides are stood first and the chain ends above the seam on hoop 1, at each of the four corners."""
    for end, hoops in (("tag", (1, 2, 3)), ("far", (9, 8, 7))):
        for side in "LR":
            first, second, third = (f"H{hoop}-{side}" for hoop in hoops)
            pieces = {(b["from"], b["to"]): b for b in kit["braces"] if b["zone"] == "side" and b["corner"].startswith(end)}
            lower = next(b for ends, b in pieces.items() if f"{third}-foot" in ends)
            upper = next(b for ends, b in pieces.items() if f"{first}-brace-hip" in ends)
            landing = {at["code"]: at["joint"] for b in (lower, upper) for at in (b["landing_from"], b["landing_to"])}
            roof = step_of(kit, next(m["id"] for m in kit["members"] if m["role"] == "section" and m["part"] == "CP-R"
                                     and m["hoop"] == hoops[0]))
            fitted, hung, swung = (step_of(kit, ident) for ident in (lower["id"], upper["id"], landing[f"{first}-brace-hip"]))
            assert (fitted["how"], hung["how"], swung["how"]) == ("fit now", "hang and tie", "wait")
            assert fitted["step"] < hung["step"] < roof["step"] < swung["step"]
            assert landing[f"{third}-foot"] in fitted["joints"]
            assert [j for j in hung["joints"] if j.startswith(f"{second}-mid")] == hung["joints"] != []
            assert swung["pieces"] == []
            assert {hung["step"], roof["step"]} <= set(swung["needs"])


def test_a_family_that_raises_whole_hoops_hangs_nothing(tmp_path):
    text = (ROOT / "tests/outside/families/common_practice_30.toml").read_text(encoding="utf-8")
    path = tmp_path / "whole.toml"
    path.write_text(text.replace('put_up = "sides first"', 'put_up = "whole"'), encoding="utf-8")
    done = command("kit", str(path), *ASKED[2:], "--json")
    whole = json.loads(done.stdout)
    assert {step["how"] for step in whole["sequence"]} == {"", "fit now"}
    assert not any("Hang" in step["does"]["template"] for step in whole["sequence"])
