"""A stock file: what lies in each bin, line by line, as CSV. Pure.

The first line names the columns `part`, `bin`, `lot`, `quantity`, in any order; `name` may be there and is not read. Each
line says how many pieces of one part and lot the bin holds. What the file does not name stays as it is.
"""

from __future__ import annotations

import csv
import difflib
import io
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from inventory.lots import LotError, read_lot

COLUMNS = ("part", "bin", "lot", "quantity")
EXPORTED = ("part", "name", "bin", "lot", "quantity")
MOST_LINES = 5000
MOST_PIECES = 1_000_000


class StockFileError(ValueError):
    """The file as a whole can't be read; the message is one sentence."""


@dataclass(frozen=True, slots=True)
class StockLine:
    """One line: `number` is its place in the file, the heading being line 1. `wrong` is "" or the sentence why not."""

    number: int
    part: str
    bin: str
    lot: str
    quantity: int | None
    typed: str
    wrong: str = ""


def decode(content: bytes) -> str:
    """The text of an uploaded file: UTF-8, with or without its mark. Raises `StockFileError`."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise StockFileError("The file is no UTF-8 text: save it as CSV UTF-8 and choose it again.") from None
    if "\0" in text:
        raise StockFileError("The file is no text but something packed: save it as CSV UTF-8 and choose it again.")
    return text


def read_stock_file(text: str, *, parts: Collection[str], bins: Collection[str]) -> list[StockLine]:
    """Read every line, good or bad, in the file's order; `parts` and `bins` are the numbers and codes that exist.

    Raises `StockFileError` when the file as a whole can't be read.
    """
    rows = _rows(text)
    places = _columns(rows[0][1])
    seen: dict[tuple[str, str, str], int] = {}
    lines = []
    for number, row in rows[1:]:
        if any(cell.strip() for cell in row):
            lines.append(_line(number, [_cell(row, places[name]) for name in COLUMNS], parts, bins, seen))
    if not lines:
        raise StockFileError("The file names its columns and nothing under them: add a line for each bin and lot.")
    if len(lines) > MOST_LINES:
        raise StockFileError(f"The file has {len(lines):,} lines: split it into files of {MOST_LINES:,} or fewer.")
    return lines


def write_stock_file(rows: Iterable[Sequence[object]]) -> str:
    """The file that `read_stock_file` reads, from rows of part, name, bin, lot and quantity."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(EXPORTED)
    writer.writerows(rows)
    return out.getvalue()


def _rows(text: str) -> list[tuple[int, list[str]]]:
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    rows = []
    try:
        for row in reader:
            rows.append((reader.line_num, row))
    except csv.Error:
        raise StockFileError(
            f"Line {reader.line_num} has a quotation mark that is not closed: mend it and choose the file again."
        ) from None
    if not rows:
        raise StockFileError(f"The file is empty: its first line names the columns {', '.join(COLUMNS)}.")
    return rows


def _columns(heading: Sequence[str]) -> dict[str, int]:
    names = [name.strip().lower() for name in heading]
    if len(names) == 1 and (";" in names[0] or "\t" in names[0]):
        raise StockFileError("The columns of the first line stand with no comma between them: save the file as CSV with commas.")
    for name in names:
        if name not in EXPORTED:
            near = difflib.get_close_matches(name, EXPORTED, n=1)
            would = f"{near[0]} is the nearest" if near else f"the columns are {', '.join(EXPORTED)}"
            raise StockFileError(f"Column {name[:40]!r} is not known: {would}.")
        if names.count(name) > 1:
            raise StockFileError(f"Column {name} stands twice in the first line: leave one of them out.")
    for name in COLUMNS:
        if name not in names:
            raise StockFileError(f"Column {name} is missing: the first line names {', '.join(COLUMNS)}.")
    return {name: names.index(name) for name in COLUMNS}


def _cell(row: Sequence[str], place: int) -> str:
    return " ".join(row[place].split()) if place < len(row) else ""


def _line(
    number: int, cells: Sequence[str], parts: Collection[str], bins: Collection[str], seen: dict[tuple[str, str, str], int]
) -> StockLine:
    part, bin, lot, quantity = cells[0].upper(), cells[1].upper(), cells[2], cells[3]
    typed = ", ".join(cells)
    try:
        lot = read_lot(lot)
        wrong = _wrong_part(part, parts) or _wrong_bin(bin, bins) or _wrong_quantity(quantity)
    except LotError as error:
        wrong = _wrong_part(part, parts) or _wrong_bin(bin, bins) or str(error)
    if not wrong:
        first = seen.setdefault((part, bin, lot), number)
        if first != number:
            wrong = f"Line {first} already says what {bin} holds of {part}, lot {lot}: leave one of the two out."
    return StockLine(number, part, bin, lot, None if wrong else int(quantity), typed, wrong)


def _wrong_part(part: str, parts: Collection[str]) -> str:
    return "" if part in parts else unknown_words("Part", part, parts)


def _wrong_bin(bin: str, bins: Collection[str]) -> str:
    return "" if bin in bins else unknown_words("Bin", bin, bins)


def unknown_words(noun: str, given: str, known: Collection[str]) -> str:
    """The sentence for a number or code that is not there, with the nearest one that is."""
    if not given:
        return f"The {noun.lower()} is missing: write its {'number' if noun == 'Part' else 'code'}."
    near = difflib.get_close_matches(given, known, n=1, cutoff=0.6)
    return f"{noun} {given[:40]} is not here: {f'{near[0]} is the nearest.' if near else f'look it up in the list of {noun.lower()}s.'}"


def _wrong_quantity(text: str) -> str:
    if not text:
        return "The quantity is missing: write how many the bin holds, 0 for none."
    if not (text.isascii() and text.isdigit()):
        return f"Quantity {text[:40]!r} is no whole number of pieces: write it like 44."
    if int(text) > MOST_PIECES:
        return f"Quantity {int(text):,} is more than {MOST_PIECES:,}: look whether a figure slipped in."
    return ""
