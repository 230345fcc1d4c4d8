"""README's section on a family of one's own, followed word for word."""

import re
import subprocess
from pathlib import Path

from structures.frame.lengths import read_length
from structures.frame.reader import read_family
from structures.frame.reader.access import Problems
from structures.frame.reader.stations import Places
from structures.frame.trial import try_out

ROOT = Path(__file__).resolve().parents[2]
TITLE = "## A family of your own"


def section() -> str:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    start = text.index(TITLE)
    return text[start:text.index("\n## ", start + len(TITLE))]


def blocks() -> list[tuple[str, str]]:
    """The section's code blocks in order, each with its kind: the file, a command, or what the command answers."""
    return re.findall(r"^```(\w+)\n(.*?)^```$", section(), re.MULTILINE | re.DOTALL)


def answer_to(command: str, folder: Path) -> str:
    """What a command of the section says, typed as it stands with the file beside it."""
    typed = command.strip().replace("manage.py", str(ROOT / "manage.py"))
    done = subprocess.run(typed, shell=True, cwd=folder, capture_output=True, text=True, timeout=300, check=False)
    return done.stdout or done.stderr


def test_a_newcomer_who_follows_the_section_gets_every_answer_it_shows(tmp_path):
    (name,) = re.findall(r"Save this as `([\w.-]+)`", section())
    (kind, text), *rest = blocks()
    assert kind == "toml"
    (old, new), = re.findall(r"change\s+`([^`]+)` to `([^`]+)`", section())
    (tmp_path / name).write_text(text, encoding="utf-8")
    assert [kind for kind, _ in rest] == ["sh", "text"] * 3
    answers = []
    for at in range(0, len(rest), 2):
        answers.append((answer_to(rest[at][1], tmp_path), rest[at + 1][1]))
        if at == 0:
            assert text.count(old) == 1
            (tmp_path / name).write_text(text.replace(old, new), encoding="utf-8")
    assert [said for said, _ in answers] == [shown for _, shown in answers]


def test_the_family_of_the_section_can_be_built_in_all_its_ways():
    (old, new), = re.findall(r"change\s+`([^`]+)` to `([^`]+)`", section())
    try_out(read_family(blocks()[0][1].replace(old, new), source="r12-a.toml"))


def test_every_length_and_place_that_the_section_writes_is_read():
    (lengths,) = re.findall(r"written in words: (.*?)\.\n", section())
    assert [read_length(words) for words in re.findall(r"`([^`]+)`", lengths)] == [54.0, 54.0, 107.25, 104.75, 2660 / 25.4]
    (places,) = re.findall(r"measured from the foot: (.*?)\.\n", section())
    problems = Problems("here")
    known = Places(problems, 150.0, {"foot": "8 in", "hip": "4-6"})
    assert [known.read("here", words) for words in re.findall(r"`([^`]+)`", places)] == [54.0, 51.0, 138.0, 31.0]
    assert problems.found == []
