"""`manage.py kit`: the contract of one command."""

import json

import pytest
from django.core.management import call_command

from tests.structures.frames import FAMILIES

KEYS = {"schema", "engine", "family", "revision", "measures", "options", "lines", "members", "joints", "braces", "ties",
        "marks", "cuts", "sequence", "bring", "tight", "warnings", "totals"}


@pytest.fixture
def kit(capsys):
    """Run the command; gives exit code, standard output and standard error."""
    def run(*words):
        code = 0
        try:
            call_command("kit", *words)
        except SystemExit as stop:
            code = stop.code
        out, err = capsys.readouterr()
        return code, out, err
    return run


def test_json_is_the_whole_of_standard_output_and_needs_no_database(kit):
    code, out, err = kit("g26", "--length", "72ft", "--json")
    answer = json.loads(out)
    assert (code, err) == (0, "")
    assert set(answer) >= KEYS
    assert (answer["schema"], answer["family"], answer["revision"]) == (2, "G26", "D")
    assert set(answer["members"][0]) >= {"id", "role", "part", "from", "to", "length_in"}
    assert set(answer["joints"][0]) >= {"id", "code", "kind"}
    assert set(answer["braces"][0]) >= {"id", "role", "part", "from", "to", "length_in", "twist_deg", "hand",
                                        "bend_from_deg", "bend_to_deg", "clearance_in", "proud_in", "set_end"}
    assert [len(answer["tight"]), *({"piece", "near", "gap_in"} - set(tight) for tight in answer["tight"])] == [5, *[set()] * 5]
    assert set(answer["options"][0]) >= {"code", "name", "included", "standard", "no_because"}
    assert set(answer["lines"][0]) >= {"part", "name", "unit", "quantity", "needed", "spares", "pack_rounding", "weight_lb", "because"}
    assert set(answer["lines"][0]["because"][0]) >= {"kind", "count", "per", "where"}
    assert set(answer["measures"]) >= {"bays", "hoops", "inner_hoops", "spacing_in", "length_in", "developed_in", "ridge_mark_in",
                                       "peak_in", "width_in", "clear_gap_in"}
    assert set(answer["marks"][0]) >= {"hoops", "side", "code", "kind", "from_foot_in", "piece", "datum",
                                       "from_datum_in", "edge_in"}
    assert set(answer["cuts"][0]) >= {"run", "sticks", "cut_length_in", "saw_end", "offcut_in"}
    assert set(answer["sequence"][0]) >= {"step", "does", "pieces", "why"}
    assert set(answer["totals"]) >= {"pieces", "weight_lb", "heaviest", "longest"}


def test_json_says_each_sentence_beside_what_it_is_made_of(kit):
    answer = json.loads(kit("g26", "--length", "48ft", "--json")[1])
    texts = [step["does"]["text"] for step in answer["sequence"]]
    assert texts[1].startswith("Set out the four corners with string: 48-0 between the middles of hoop 1 and hoop 13")
    assert all(text and "{" not in text for text in texts)
    spacers = answer["bring"][0]
    assert spacers["text"] == "4 spacer boards, each cut to 3-10 1/8: the spacing less the hoop's diameter."
    assert spacers["values"]["clear_gap_in"] == 46.1


def test_the_newest_revision_is_taken_and_an_older_one_can_be_named(kit):
    assert json.loads(kit("g26", "--json")[1])["revision"] == "D"
    older = json.loads(kit("g26", "--revision", "A", "--json")[1])
    assert (older["revision"], older["measures"]["spacing_in"]) == ("A", 72)


def test_a_path_needs_no_catalogue(kit):
    code, out, _ = kit(str(FAMILIES / "r14-a.toml"), "--length", "40ft", "--json")
    assert code == 0
    assert json.loads(out)["measures"]["hoops"] == 9


def test_people_get_a_table(kit):
    code, out, _ = kit("g26", "--length", "72ft")
    assert code == 0
    assert "72-0 long, 18 bays of 4-0, 19 hoops; base fixed; ends framed and framed" in out
    row = next(line for line in out.splitlines() if line.startswith("BC190"))
    assert row.split()[:6] == ["BC190", "Band", "clamp", "1.90", "62", "62"]
    assert "offcut 0-6" in out


def test_work_tells_the_order_of_work_what_to_bring_and_the_tightest_gaps(kit):
    code, out, err = kit("g26", "--length", "48ft", "--work")
    lines = out.splitlines()
    assert (code, err) == (0, "")
    assert lines[0] == "G26 gothic 26 ft, revision D, 48-0 long: the order of work"
    steps = [line for line in lines if line[:1].isdigit()]
    assert [line.split(".")[0] for line in steps] == [str(n) for n in range(1, len(steps) + 1)]
    at = next(n for n, line in enumerate(lines) if line.startswith("7. "))
    assert lines[at].endswith("4 brace bands (bolt points in, nut inside). (fit now)")
    assert lines[at + 1].startswith("   Why: Each end lies on a side section")
    assert lines[at + 2].startswith("   ! If it won't meet, stop")
    assert "To bring:" in lines
    gaps, ends = lines.index("Tightest gaps:"), lines.index("Flattened ends, as made, and the hoop's line that the film follows:")
    assert ends - gaps == 7
    assert lines[gaps + 1] == "  Roof brace, lower, right twist at H1-L-shoulder to H2-L-roof, to its own hoop, H1-L-shoulder: 1/8 in."
    assert "  Roof brace, lower, shoulder: within it by 9/16 in., within it by 1/2 in. while its twist is not made" in lines[ends:]
    assert len(lines[ends:]) == len(set(lines[ends:]))


def test_why_says_every_place_of_a_part(kit):
    code, out, _ = kit("g26", "--length", "48ft", "--why", "rl26-r")
    assert code == 0
    assert out.splitlines()[0] == (
        "RL26-R, Roof brace, lower, right twist, 26 ft: 2 = 2 needed + 0 spare + 0 to fill packs.")
    assert out.splitlines()[1] == "2 lower roof braces:"
    assert out.splitlines()[2:] == [
        "  B1-L-roof:brace:1: from H1-L-shoulder, 8-10 up, to H2-L-roof, 14-3 3/8 up, right twist of 5.5 degrees.",
        "  B12-R-roof:brace:1: from H13-R-shoulder, 8-10 up, to H12-R-roof, 14-3 3/8 up, right twist of 5.5 degrees.",
    ]


@pytest.mark.parametrize(
    ("words", "sentences"),
    [
        (["g26", "--length", "50ft"], ["Length 50-0 is no whole number of 4-0 bays: 48-0 or 52-0 would do."]),
        (["g26", "--length", "50ft", "--base", "skid"],
         ["Length 50-0 is no whole number of 4-0 bays: 48-0 or 52-0 would do.",
          "Base 'skid' is not made in G26: fixed or rolling would do."]),
        (["g27"], ["Family 'g27' is not in the catalogue: g20, g26, g30, r14 would do, or a path that ends in .toml."]),
        (["g26", "--revision", "Z"], ["Revision 'Z' of g26 is not in the catalogue: A, B, C, D would do."]),
        (["g26", "--length", "long"],
         ["--length 'long' is no length: write it like 4ft 6in, 4-6, 104 3/4 in or 2660 mm."]),
        (["g26", "--ends", "open"], ["--ends 'open' names 1: name two, tag end first, as in framed,open."]),
        (["nowhere.toml"], ["Family file nowhere.toml can't be read (No such file or directory): give the path of a "
                            "family file."]),
        (["/tmp"], ["Family file /tmp can't be read (Is a directory): give the path of a family file."]),
        (["g*"], ["Family 'g*' is not in the catalogue: g20, g26, g30, r14 would do, or a path that ends in .toml."]),
        (["g26", "--why", "SB20"], ["Part 'SB20' is not in this kit: did you mean SB26?"]),
    ],
    ids=lambda value: " ".join(value) if value and value[0].startswith(("g", "n")) else None,
)
def test_bad_input_exits_2_with_one_sentence_for_each_error_and_nothing_on_standard_output(kit, words, sentences):
    code, out, err = kit(*words)
    assert (code, out) == (2, "")
    assert err.splitlines() == sentences


def test_all_errors_of_a_file_come_at_once(kit, tmp_path):
    text = (FAMILIES / "r14-a.toml").read_text(encoding="utf-8")
    path = tmp_path / "mine.toml"
    path.write_text(text.replace('leg = "1-6"', 'leg = "tall"').replace('put_up = "whole"', 'put_upp = "whole"'))
    code, out, err = kit(str(path))
    assert (code, out) == (2, "")
    assert len(err.splitlines()) >= 2
    assert all(line.startswith("mine.toml: ") for line in err.splitlines())
