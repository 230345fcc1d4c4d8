"""What a stock file would change, line by line, without changing it; and the file that says what is there."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

from inventory.models import Bin, Holding, Part
from inventory.stock_file import StockLine, read_stock_file, write_stock_file


@dataclass(frozen=True, slots=True)
class PlannedLine:
    """A line of the file beside the books: `now` pieces lie there, `will` is what the file says."""

    line: StockLine
    part: Part | None
    bin: Bin | None
    lot: str
    now: int | None
    will: int | None

    @property
    def change(self) -> int:
        """How many come or go."""
        return (self.will or 0) - (self.now or 0)

    @property
    def says(self) -> str:
        """What would happen, in words."""
        if self.line.wrong:
            return self.line.wrong
        if not self.change:
            return "stays as it is"
        return f"{abs(self.change):,} more" if self.change > 0 else f"{abs(self.change):,} fewer"


@dataclass(frozen=True, slots=True)
class StockPlan:
    """All lines in the file's order. `stamp` names exactly these changes, so that others can't be stored in their place."""

    lines: list[PlannedLine]
    stamp: str

    @property
    def wrong(self) -> int:
        """How many lines can't be read."""
        return sum(1 for line in self.lines if line.line.wrong)

    @property
    def changing(self) -> int:
        """How many lines would change something."""
        return sum(1 for line in self.lines if not line.line.wrong and line.change)

    @property
    def agreeing(self) -> int:
        """How many lines say what the books say."""
        return len(self.lines) - self.wrong - self.changing


def plan_stock_file(text: str) -> StockPlan:
    """Compare a file with the books; three queries however long it is. Raises `StockFileError`."""
    parts = {part.number: part for part in Part.objects.all()}
    bins = {bin.code: bin for bin in Bin.objects.all()}
    books = {
        (part, bin, lot): quantity
        for part, bin, lot, quantity in Holding.objects.values_list("part__number", "bin__code", "lot", "quantity")
    }
    lines = []
    for line in read_stock_file(text, parts=parts, bins=bins):
        if line.wrong:
            lines.append(PlannedLine(line, None, None, line.lot, None, None))
        else:
            now = books.get((line.part, line.bin, line.lot), 0)
            lines.append(PlannedLine(line, parts[line.part], bins[line.bin], line.lot, now, line.quantity))
    return StockPlan(lines, _stamp(lines))


def stock_as_file() -> str:
    """Everything that lies in the bins, as a file that can be imported again."""
    rows = Holding.objects.there().in_walking_order().values_list("part__number", "part__name", "bin__code", "lot", "quantity")
    return write_stock_file(rows)


def _stamp(lines: list[PlannedLine]) -> str:
    said = [(p.line.number, p.line.part, p.line.bin, p.lot, p.now, p.will, p.line.wrong) for p in lines]
    return hashlib.sha256(repr(said).encode()).hexdigest()
