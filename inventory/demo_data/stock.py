"""Parts, bins and what lies in them, for the demo: a small maker's shelf on an ordinary morning in spring."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import timedelta

from django.db import transaction
from django.utils import timezone

from inventory.actions import parts as part_acts
from inventory.actions import stock as stock_acts
from inventory.actions.supply import Arrived, expect, take_in
from inventory.lots import UNKNOWN_LOT
from inventory.models import Bin, ExpectedReceipt, Movement, Part, Receipt
from structures.models import FamilyRevision, User

HELD_BACK_BIN = "Q-01"
RAW_TUBE = "TB131-24"

AISLES = {
    "A": "long rack, left wall",
    "B": "long rack, right wall",
    "C": "brace shelf",
    "D": "clamp shelf",
    "E": "screw bench",
    "F": "film and boards, by the door",
    "Q": "cage",
}


@dataclass(frozen=True, slots=True)
class Shelf:
    """A part's bin, what lies there by lot, and when more is made or bought."""

    part: str
    bin: str
    lots: tuple[tuple[str, int], ...]
    reorder: int | None = None
    weeks: int | None = None
    weeks_spring: int | None = None
    note: str = ""


SHELVES = (
    Shelf(RAW_TUBE, "A-01", (("T-2214", 410),), 300, 6, 10, "makes all purlins, braces and ties"),
    Shelf("HS14-L", "A-02", (("T-2190", 60),), 10, note="in house, 60 hoops a day"),
    Shelf("HS14-R", "A-03", (("T-2190", 60),), 10, note="in house, 60 hoops a day"),
    Shelf("HS20-L", "A-04", (("T-2190", 152),), 20, note="in house, 60 hoops a day"),
    Shelf("HS20-R", "A-05", (("T-2190", 152),), 20, note="in house, 60 hoops a day"),
    Shelf("HS26-S", "A-06", (("T-2207", 140), ("T-2211", 80)), 80, note="in house; the bender is down on Tuesdays"),
    Shelf("HS26-R", "A-07", (("T-2207", 70), ("T-2211", 40)), 40, note="in house; the bender is down on Tuesdays"),
    Shelf("HS30-S", "A-08", (("T-2211", 100),), 65, note="in house; the bender is down on Tuesdays"),
    Shelf("HS30-R", "A-09", (("T-2211", 50),), 35, note="in house; the bender is down on Tuesdays"),
    Shelf("RN237-21", "A-10", (("T-2190", 40),), 12, 8, note="skids and rolling bases only"),
    Shelf("GP190-28", "B-01", (("T-2190", 420),), 50),
    Shelf("GP166-30", "B-02", (("T-2207", 380), ("T-2214", 240)), 60),
    Shelf("TI20", "B-03", (("P-298", 96),), 30, note="press"),
    Shelf("TI26", "B-04", (("P-300", 240),), 40, note="press"),
    Shelf("TI30", "B-05", (("P-300", 110),), 15, note="press"),
    Shelf("PS131-106", "B-06", (("T-2207", 420), ("T-2214", 260)), 100, note="one end swaged at the press"),
    Shelf("PE131-10", "B-07", (("P-306", 240),), 100, note="press"),
    Shelf("RP131-10", "B-08", (("T-2214", 120),), 40, note="cut in house"),
    Shelf("SB14", "C-13", (("P-307", 60),), 40, note="press, 110 braces a day"),
    Shelf("SB26", "C-14", (("P-304", 44),), 40, note="press, 110 braces a day"),
    Shelf("SB20", "C-15", (("P-311", 128),), 40, note="press, 110 braces a day"),
    Shelf("SB30", "C-16", (("P-307", 96),), 40, note="press, 110 braces a day"),
    Shelf("RL20-L", "C-18", (("P-306", 34),), 10, note="press"),
    Shelf("RL20-R", "C-19", (("P-306", 36),), 10, note="press"),
    Shelf("RU20", "C-20", (("P-306", 72),), 30, note="press"),
    Shelf("RL26-L", "C-21", (("P-306", 41),), 30, note="press"),
    Shelf("RL26-R", "C-22", (("P-304", 9),), 30, note="press; the last batch was bent to the wrong hand"),
    Shelf("RU26", "C-23", (("P-306", 60),), 30, note="press"),
    Shelf("RL30-L", "C-24", (("P-307", 32),), 15, note="press"),
    Shelf("RL30-R", "C-25", (("P-307", 30),), 15, note="press"),
    Shelf("RU30", "C-26", (("P-307", 44),), 15, note="press"),
    Shelf("WB30", "C-27", (("P-307", 60),), 20, note="press"),
    Shelf("SB26A", "C-30", ((UNKNOWN_LOT, 12),), note="for G26 revision A only, hoops 6 ft apart"),
    Shelf("BC131", "D-01", (("C-0428", 140),), 60, 14, note="for webs on ties"),
    Shelf("BC166", "D-02", (("C-0421", 1900),), 800, 14, note="by sea, 2,000 least"),
    Shelf("BC190", "D-05", (("C-0402", 300), ("C-0428", 600)), 1200, 14, note="by sea, 2,000 least"),
    Shelf("CC166-131", "D-07", (("C-0388", 640),), 200, 14),
    Shelf("CC190-131", "D-08", (("C-0388", 420), ("C-0421", 1000)), 900, 14),
    Shelf("UB14", "D-10", (("C-0402", 260),), 40, 14),
    Shelf("ST166", "D-11", (("C-0402", 400),), 100, 14),
    Shelf("ST190", "D-12", (("C-0402", 500),), 100, 14),
    Shelf("BS12", "D-13", (("C-0402", 110),), 40, 3),
    Shelf("RS131", "D-14", (("C-0421", 130),), 40, 14),
    Shelf("RC131", "D-15", (("C-0421", 900),), 300, 14),
    Shelf("RK131", "D-16", (("C-0421", 22),), 8, 14),
    Shelf("RR14", "D-17", (("C-0421", 260),), 80, 6),
    Shelf("GA30", "D-18", (("C-0402", 96),), 30, 6),
    Shelf("RX237", "D-19", (("C-0402", 36),), 10, 6),
    Shelf("SH237-166", "D-20", (("C-0402", 60),), 26, 6),
    Shelf("WH237-190", "D-21", (("C-0402", 48),), 26, 6),
    Shelf("BT516-1", "E-06", (("F-118", 3900),), 2500, 2),
    Shelf("BT516-2", "E-07", (("F-118", 2300),), 1500, 2),
    Shelf("NT516", "E-08", (("F-120", 5950),), 4000, 2, note="short of bolts by 250: find out why"),
    Shelf("BT38-3", "E-10", (("F-118", 1400),), 400, 2),
    Shelf("NT38", "E-11", (("F-120", 4200),), 1000, 2),
    Shelf("BT38-4", "E-12", (("F-118", 400),), 100, 2),
    Shelf("SC14", "E-14", (("F-121", 14000),), 4000, 2),
    Shelf("EY14", "E-15", (("F-121", 600),), 200, 2),
    Shelf("CH10", "F-01", (("K-77", 620),), 300, 5),
    Shelf("FR28-100", "F-03", (("L-2041", 4),), 2, 3, 7),
    Shelf("FR36-100", "F-04", (("L-2041", 9),), 4, 3, 7),
    Shelf("FR44-100", "F-05", (("L-2044", 11),), 8, 3, 7),
    Shelf("FR50-100", "F-06", (("L-2044", 5),), 3, 3, 7),
    Shelf("HB12", "F-08", ((UNKNOWN_LOT, 90),), 40, 1),
    Shelf("BB12", "F-09", ((UNKNOWN_LOT, 84),), 40, 1),
    Shelf("DS46-76", "F-11", ((UNKNOWN_LOT, 7),), 3, 4, note="two people to lift it"),
    Shelf("DD94-84", "F-12", ((UNKNOWN_LOT, 6),), 3, 4, note="two people to lift it"),
    Shelf("BL60", "F-13", ((UNKNOWN_LOT, 9),), 4, 3),
)
# Red rust at the bend: all of this lot went to the cage.
SOFT_LOT = ("BC190", "D-05", "C-0417", 460)
# part, pieces, from whom, days until it is due, our order
ON_ORDER = (
    (RAW_TUBE, 200, "Harl Tube", 21, "P-2231"),
    ("BC190", 2000, "Ostvik Clamps", 63, "P-2226"),
    ("FR44-100", 12, "Merle Film", 24, "P-2233"),
)
SUPPLIERS = {
    "A": "own bender", "B": "own press", "C": "own press", "D": "Ostvik Clamps", "E": "Brade Fasteners", "F": "Merle Film",
}


def load(say: Callable[[str], None]) -> None:
    """Add what is missing."""
    by = User.objects.get(username="warehouse")
    _parts(by)
    bins = _bins(by)
    parts = {part.number: part for part in Part.objects.all()}
    _receipts(parts, bins, by)
    _held_back(parts, bins, by)
    _on_order(parts, by)
    say(f"stock: {len(parts)} parts in {len(bins)} bins")


def _parts(by: User) -> None:
    for revision in FamilyRevision.objects.filter(part_uses__isnull=True).order_by("code", "effective"):
        part_acts.sync_parts(revision, by=by)
    purlin = Part.objects.filter(tube="1.315 x .058").first()
    Part.objects.get_or_create(
        number=RAW_TUBE,
        defaults={
            "name": "Tube 1.315 x 17 ga, 24 ft", "role": "raw", "kind": "tube", "tube": "1.315 x .058", "diameter_in": 1.315,
            "wall_in": 0.058, "coating": purlin.coating if purlin else "", "length_in": 288.0, "cut_in": 288.0,
            "ends": "plain both ends", "weight_lb": 18.7,
        },
    )
    known = {part.number: part for part in Part.objects.all()}
    for shelf in SHELVES:
        # A database that was filled before a part came into the demo's files keeps its own files, and has no such part.
        part = known.get(shelf.part)
        if part is None:
            continue
        kept = {
            "reorder_point": shelf.reorder, "lead_weeks": shelf.weeks, "lead_weeks_spring": shelf.weeks_spring, "note": shelf.note,
        }
        if all(getattr(part, name) in (None, "") for name in kept):
            part_acts.keep_part(part, kept, by=by)


def _bins(by: User) -> dict[str, Bin]:
    codes = sorted({shelf.bin for shelf in SHELVES} | {HELD_BACK_BIN})
    there = {bin.code: bin for bin in Bin.objects.all()}
    for turn, code in enumerate(codes, start=1):
        if code not in there:
            values = {"code": code, "walk": turn * 10, "zone": AISLES[code[0]], "held_back": code == HELD_BACK_BIN}
            there[code] = stock_acts.make_bin(values, by=by)
    return there


def _receipts(parts: Mapping[str, Part], bins: Mapping[str, Bin], by: User) -> None:
    """One receipt for each aisle: what lay there before, as one says when a count begins."""
    for days, aisle in enumerate(SUPPLIERS, start=30):
        key = f"demo-stock-{aisle}"
        if Receipt.objects.filter(key=key).exists():
            continue
        lines = list(_arrived(aisle, parts, bins))
        take_in(
            lines, supplier=SUPPLIERS[aisle], paper=f"S-{700 + days}", received_on=timezone.localdate() - timedelta(days=days),
            note="", key=key, by=by,
        )


def _arrived(aisle: str, parts: Mapping[str, Part], bins: Mapping[str, Bin]) -> Iterable[Arrived]:
    for shelf in SHELVES:
        if shelf.bin.startswith(aisle) and shelf.part in parts:
            for lot, quantity in shelf.lots:
                yield Arrived(parts[shelf.part], bins[shelf.bin], lot, quantity)
    number, code, lot, quantity = SOFT_LOT
    if code.startswith(aisle):
        yield Arrived(parts[number], bins[code], lot, quantity)


@transaction.atomic
def _held_back(parts: Mapping[str, Part], bins: Mapping[str, Bin], by: User) -> None:
    number, _, lot, _ = SOFT_LOT
    key = "demo-hold-back-C-0417"
    if not Movement.objects.filter(posting=key).exists():
        why = "red rust at the bend, three growers’ photos"
        stock_acts.hold_back(parts[number], lot=lot, to_bin=bins[HELD_BACK_BIN], why=why, key=key, by=by)


def _on_order(parts: Mapping[str, Part], by: User) -> None:
    for number, quantity, supplier, days, reference in ON_ORDER:
        if not ExpectedReceipt.objects.filter(reference=reference).exists():
            due_on = timezone.localdate() + timedelta(days=days)
            values = {"part": parts[number], "quantity": quantity, "supplier": supplier, "due_on": due_on, "reference": reference}
            expect(values, by=by)
