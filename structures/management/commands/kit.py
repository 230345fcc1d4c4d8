"""`manage.py kit`: from a family and a size to exactly what it is made of, as a table or as JSON."""

from __future__ import annotations

import hashlib
import json
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand

from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.document import Document, write_document
from structures.frame.lengths import LengthError, read_length
from structures.frame.reader import read_family
from structures.frame.refusal import Refusal, Refused
from structures.frame.said import Said
from structures.frame.tell import kit_table, why_part, work_told

FAMILIES = Path(__file__).resolve().parents[2] / "families"


class Command(BaseCommand):
    help = "Work out what a structure is made of. FAMILY is a catalogue code (g26) or a path to a family file."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("family", metavar="FAMILY", help="a catalogue code, or the path of a family file")
        parser.add_argument("--revision", help="a revision of a catalogue family; the newest if left out")
        parser.add_argument("--length", help="for instance 48ft; the shortest if left out")
        parser.add_argument("--spacing", help="for instance 4ft; the family's first if left out")
        parser.add_argument("--base", help="the family's first if left out")
        parser.add_argument("--ends", help="tag end,far end: for instance framed,open")
        parser.add_argument("--with", dest="with_", action="append", default=[], metavar="CODE", help="add an option")
        parser.add_argument("--without", action="append", default=[], metavar="CODE", help="leave an option out")
        parser.add_argument("--why", metavar="PART", help="say every place of one part as a sentence")
        parser.add_argument("--work", action="store_true", help="say the order of work, what to bring and the tightest gaps")
        parser.add_argument("--json", action="store_true", help="print the document as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            document = _document(options)
            answer = _answer(document, options)
        except Refused as refused:
            self.stderr.write("\n".join(str(refusal) for refusal in refused.refusals), style_func=str)
            sys.exit(2)
        self.stdout.write(answer)


def _answer(document: Document, options: dict[str, Any]) -> str:
    if options["why"]:
        return why_part(document, options["why"])
    if options["json"]:
        return json.dumps(_with_words(write_document(document)), indent=1, ensure_ascii=False)
    if options["work"]:
        return work_told(document)
    return kit_table(document)


def _with_words(data: Any) -> Any:
    """The document with each saying's sentence, in US units, beside the template and the values that it is made of."""
    if isinstance(data, list):
        return [_with_words(item) for item in data]
    if not isinstance(data, dict):
        return data
    if data.keys() == {"template", "values"}:
        return {**data, "text": str(Said(data["template"], data["values"]))}
    return {key: _with_words(value) for key, value in data.items()}


def _document(options: dict[str, Any]) -> Document:
    text, source = _family_text(options["family"], options["revision"])
    family = read_family(text, source=source)
    if options["revision"] and family.revision.lower() != options["revision"].lower():
        raise _refused("revision-not-there", "{source} holds revision {revision}: leave --revision out.", "revision",
                       source=source, revision=family.revision)
    configuration = choose(
        family, length_in=_length(options, "length"), spacing_in=_length(options, "spacing"), base=options["base"],
        ends=_ends(options["ends"]), with_=options["with_"], without=options["without"],
    )
    return compute(family, configuration, sha256=hashlib.sha256(text.encode()).hexdigest())


def _family_text(name: str, revision: str | None) -> tuple[str, str]:
    """The file's text and name, from a path or from the newest (or the named) revision in the catalogue."""
    path = Path(name)
    if path.suffix != ".toml" and not path.is_absolute() and len(path.parts) < 2:
        path = _catalogue(name.lower(), revision)
    try:
        return path.read_text(encoding="utf-8"), path.name
    except (OSError, UnicodeDecodeError) as error:
        reason = getattr(error, "strerror", None) or "it is no UTF-8 text"
        raise _refused("file-unread", "Family file {path} can't be read ({reason}): give the path of a family file.",
                       "family", path=str(path), reason=reason) from None


def _catalogue(code: str, revision: str | None) -> Path:
    files = {tuple(path.stem.rsplit("-", 1)): path for path in sorted(FAMILIES.glob("*-*.toml"))}
    revisions = {letter: path for (family, letter), path in files.items() if family == code}
    if not revisions:
        known = sorted({family for family, _ in files})
        raise _refused("family-unknown", "Family {family!r} is not in the catalogue: {known} would do, or a path that ends "
                       "in .toml.", "family", family=code, known=", ".join(known))
    wanted = (revision or max(revisions)).lower()
    if wanted not in revisions:
        raise _refused("revision-unknown", "Revision {revision!r} of {family} is not in the catalogue: {known} would do.",
                       "revision", revision=revision, family=code, known=", ".join(r.upper() for r in revisions))
    return revisions[wanted]


def _length(options: dict[str, Any], name: str) -> float | None:
    if options[name] is None:
        return None
    try:
        return read_length(options[name])
    except LengthError as error:
        raise _refused("length-unread", "--{name} {why}", name, name=name, why=str(error)) from None


def _ends(words: str | None) -> tuple[str, str] | None:
    if words is None:
        return None
    ends = [end.strip() for end in words.split(",")]
    if len(ends) != 2:
        raise _refused("ends-two", "--ends {words!r} names {count}: name two, tag end first, as in framed,open.", "ends",
                       words=words, count=len(ends))
    return ends[0], ends[1]


def _refused(code: str, template: str, field: str, **values: Any) -> Refused:
    return Refused([Refusal(code, template, values, field)])
