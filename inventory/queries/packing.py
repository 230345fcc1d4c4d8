"""What is ready to be sent, and what was sent, package by package."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from inventory.models import Order, OrderLine, Package, PickLine, Shipment
from inventory.package_words import caution_words, goes_words, item_words, turned_parts, weight_words
from inventory.packages import Package as Packed
from inventory.packages import Taken, pack
from inventory.queries.pick_lines import shipped_lots, standing_lots
from structures.frame.document import Document
from structures.frame.leftovers import leftover_words
from structures.models import Design


@dataclass(frozen=True, slots=True)
class Load:
    """The packages of one structure line, or of all loose parts together (`ordinal` 0, no document).

    `parts` gives the part of each pick line by primary key.
    """

    ordinal: int
    design: Design | None
    document: Document | None
    packages: tuple[Packed, ...]
    parts: Mapping[int, int]


def loads(order: Order) -> list[Load]:
    """What was picked for an order and not sent, split into packages. A fixed number of queries."""
    lines = list(
        PickLine.objects.filter(pick__order=order)
        .select_related("part", "order_line__design", "order_line__family_revision").order_by("order_line__ordinal", "pk")
    )
    taken, sent = standing_lots(lines), shipped_lots(lines)
    groups: dict[int, list[PickLine]] = {}
    for line in lines:
        ordinal = line.order_line.ordinal if line.order_line.design_id else 0
        groups.setdefault(ordinal, []).append(line)
    found = []
    # Loose parts have ordinal 0 here and ride last.
    for ordinal in sorted(groups, key=lambda n: (n == 0, n)):
        its = groups[ordinal]
        design = its[0].order_line.design if ordinal else None
        document = design.read() if design else None
        pieces = [piece for line in its for piece in _pieces(line, document, taken[line.pk], sent[line.pk])]
        if packages := pack(pieces, document):
            found.append(Load(ordinal, design, document, packages, {line.pk: line.part_id for line in its}))
    return found


def _pieces(
    line: PickLine, document: Document | None, taken: Mapping[str, int], sent: Mapping[str, int]
) -> list[Taken]:
    part = line.part
    each = _each_lb(part.number, document)
    return [
        Taken(
            line=line.pk, part=part.number, name=part.name, role=part.role, kind=part.kind, length_in=part.length_in,
            ends=part.ends, count=count - sent.get(lot, 0), lot=lot, each_lb=part.weight_lb if each is None else each,
            sent=sum(sent.values()),
        )
        for lot, count in sorted(taken.items())
        if count > sent.get(lot, 0)
    ]


def _each_lb(number: str, document: Document | None) -> float | None:
    line = next((line for line in document.lines if line.part == number), None) if document else None
    if line is None or line.weight_lb is None or not line.quantity:
        return None
    return line.weight_lb / line.quantity


@dataclass(frozen=True, slots=True)
class PackageRow:
    """A sent package as a page or paper shows it."""

    number: int
    kind: str
    title: str
    about: str
    lines: tuple[Any, ...]
    left: str

    @property
    def said(self) -> str:
        return f"{self.kind} {self.number}"


def package_rows(shipments: Iterable[Shipment], units: str = "us") -> list[PackageRow]:
    """Every package of these shipments with its lines, in order (two queries)."""
    packages = (
        Package.objects.filter(shipment__in=list(shipments)).order_by("shipment__part", "number").prefetch_related("lines__part")
    )
    return [package_row(package, units) for package in packages]


def package_row(package: Package, units: str = "us") -> PackageRow:
    about = "; ".join([weight_words(package.weight_lb), *(caution_words(caution, units) for caution in package.cautions)])
    return PackageRow(
        package.number, package.kind, package.title, about, tuple(package.lines.all()), leftover_words(package.leftovers, units)
    )


@dataclass(frozen=True, slots=True)
class ProposedLine:
    """What a line of a package will say, before it is sent."""

    line: int
    item: str
    length_in: float | None
    count: int
    lot: str
    goes: str


def proposed_lines(load: Load, packed: Packed, units: str = "us") -> list[ProposedLine]:
    """The lines of one package in words."""
    turned = turned_parts(load.document) if load.document else {}
    found = []
    for line in packed.lines:
        hand, zone = turned.get(line.part, ("", False))
        item = item_words(line, hand, turned=zone)[:200]
        found.append(ProposedLine(line.line, item, line.length_in, line.count, line.lot, goes_words(line, load.document, units)))
    return found


def proposed_rows(found: Iterable[Load], units: str = "us") -> list[PackageRow]:
    """What would be sent now, numbered as the packages will be, for the page that asks before it sends."""
    rows: list[PackageRow] = []
    for load in found:
        for packed in load.packages:
            cautions = (caution_words(dataclasses.asdict(caution), units) for caution in packed.cautions)
            rows.append(PackageRow(
                len(rows) + 1, packed.kind, packed.title, "; ".join([weight_words(packed.weight_lb), *cautions]),
                tuple(proposed_lines(load, packed, units)),
                leftover_words([dataclasses.asdict(leftover) for leftover in packed.leftovers], units),
            ))
    return rows


def still_to_come(order: Order) -> list[PickLine]:
    """Lines that something is still to be sent of, with `sent` (one query)."""
    lines = PickLine.objects.filter(pick__order=order, to_pick__gt=0).annotate_sent().select_related("part", "order_line")
    return [line for line in lines.order_by("order_line__ordinal", "part__number") if line.sent < line.to_pick]


def structure_lines(order: Order) -> list[OrderLine]:
    """The structure lines of the version that holds now."""
    return list(order.version.lines.filter(family_revision__isnull=False).select_related("family_revision", "design"))
