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
