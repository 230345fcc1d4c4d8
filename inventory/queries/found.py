"""The one search: orders, structures, people and parts, each with the reason why it is there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import reduce
from operator import or_
from typing import Any

from django.db.models import Q, QuerySet

from inventory.matching import LEAST_DIGITS, Match, Word, match, match_number, read_words
from inventory.models import Customer, Order, Part
from inventory.queries.orders import lines_by_order, said_of
from structures.models import Structure

MOST = 20   # rows of a kind on the page; more than that is no answer
MOST_SEEN = 300   # rows of a kind that are looked at for their reasons
MOST_PARTS = 5000


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a row is there: which of its texts, how the word lies in it, and the text cut around what matched."""

    what: str
    how: str
    match: Match | None
    word: str = ""


@dataclass(frozen=True, slots=True)
class Hit:
    """A row with its reasons; `missed` are the words that nothing of it matches. `marked` cuts its name for the page."""

    row: Any
    reasons: tuple[Reason, ...]
    missed: tuple[str, ...]
    marked: tuple[tuple[str, bool], ...] = ()
    about: str = ""


@dataclass(slots=True)
class Found:
    """What a question found, kind by kind, best first."""

    asked: str
    words: tuple[Word, ...]
    orders: list[Hit] = field(default_factory=list)
    structures: list[Hit] = field(default_factory=list)
    people: list[Hit] = field(default_factory=list)
    parts: list[Hit] = field(default_factory=list)

    @property
    def any(self) -> bool:
        return bool(self.orders or self.structures or self.people or self.parts)

    @property
    def whole(self) -> bool:
        """Whether the first row of some kind answers every word."""
        return any(rows and not rows[0].missed for rows in (self.orders, self.structures, self.people, self.parts))


# (what it is called, its text, whether it is read as a number)
Text = tuple[str, str, bool]


def find(asked: str) -> Found:
    """Look everywhere at once. A fixed number of queries, however much is found."""
    words = read_words(asked)
    found = Found(" ".join(asked.split())[:80], words)
    if not words:
        return found
    found.orders = _orders(words)
    found.structures = _structures(words)
    found.people = _people(words)
    found.parts = _parts(words)
    return found


def _orders(words: Sequence[Word]) -> list[Hit]:
    stands = "sent_structures__structure"
    wanted = _any(
        words, (f"{stands}__tag", f"{stands}__place", f"{stands}__name"), ("customer__phone_digits", f"{stands}__tag"),
        folded="customer__folded",
    )
    for word in words:
        if word.digits and len(word.digits) < 9 and any(c.isdigit() for c in word.typed):
            wanted |= Q(number=int(word.digits))
    rows = Order.objects.filter(wanted).distinct().select_related("customer")
    rows = list(rows.prefetch_related("sent_structures__structure").order_by("-number")[:MOST_SEEN])
    lines = lines_by_order(rows)

    def texts(order: Order) -> list[Text]:
        customer = order.customer
        mine = [row.structure for row in order.sent_structures.all()]
        return [
            ("order", order.label, True), ("name", customer.name, False), ("farm", customer.farm, False),
            ("town", customer.town, False), ("phone", customer.phone, True),
            *(("tag", structure.tag, True) for structure in mine), *(("place", structure.place, False) for structure in mine),
            *(("structure", structure.name, False) for structure in mine),
        ]

    return _hits(rows, words, texts, named=lambda order: order.customer.said, about=lambda order: said_of(lines[order.pk]))[:MOST]


def _structures(words: Sequence[Word]) -> list[Hit]:
    rows = Structure.objects.filter(_any(words, ("tag", "name", "town", "place"), ("tag", "order_number")))
    rows = rows.select_related("design__family").order_by("tag")[:MOST_SEEN]

    def texts(structure: Structure) -> list[Text]:
        return [
            ("tag", structure.tag, True), ("name", structure.name, False), ("place", structure.place, False),
            ("town", structure.town, False), ("order", structure.order_number, True),
        ]

    return _hits(rows, words, texts, named=lambda structure: structure.tag)[:MOST]


def _people(words: Sequence[Word]) -> list[Hit]:
    rows = Customer.objects.filter(_any(words, (), ("phone_digits",), folded="folded")).prefetch_related("orders")
    rows = rows.order_by("name", "pk")[:MOST_SEEN]

    def texts(customer: Customer) -> list[Text]:
        return [
            ("name", customer.name, False), ("farm", customer.farm, False), ("town", customer.town, False),
            ("phone", customer.phone, True),
        ]

    return _hits(rows, words, texts, named=lambda customer: customer.name)[:MOST]


def _parts(words: Sequence[Word]) -> list[Hit]:
    """Parts by number or name; a word of the trade finds what we call otherwise.

    Every part is looked at: there are hundreds and not hundreds of thousands, and "hs26s" must find HS26-S.
    """
    def texts(part: Part) -> list[Text]:
        return [("number", part.number, False), ("name", part.name, False)]

    rows = Part.objects.order_by("number")[:MOST_PARTS]
    return _hits(rows, words, texts, named=lambda part: part.name)[:MOST]


def _any(words: Iterable[Word], texts: Sequence[str], numbers: Sequence[str], *, folded: str = "") -> Q:
    """Rows that some word may lie in. The database looks at the text as typed and at the figures; the reasons decide."""
    wanted = [Q(pk__in=[])]
    for word in words:
        wanted += [Q(**{f"{name}__icontains": word.typed}) for name in texts]
        if folded:
            wanted.append(Q(**{f"{folded}__contains": word.folded}))
        if any(c.isdigit() for c in word.typed) and (len(word.digits) >= LEAST_DIGITS or not word.folded.isdigit()):
            wanted += [Q(**{f"{name}__contains": word.digits}) for name in numbers]
    return reduce(or_, wanted)


def _hits(
    rows: QuerySet[Any] | Sequence[Any], words: Sequence[Word], texts: Callable[[Any], list[Text]], *,
    named: Callable[[Any], str], about: Callable[[Any], str] | None = None,
) -> list[Hit]:
    """Rows with their reasons, those that answer most words first."""
    hits = []
    for row in rows:
        reasons, missed = _reasons(words, texts(row))
        if reasons:
            hits.append(Hit(row, reasons, missed, _marked(named(row), words), about(row) if about else ""))
    return sorted(hits, key=lambda hit: (len(hit.missed), -sum(1 for r in hit.reasons if r.how in ("is", "begins"))))


def _reasons(words: Sequence[Word], texts: list[Text]) -> tuple[tuple[Reason, ...], tuple[str, ...]]:
    reasons, missed = [], []
    for word in words:
        mine = [reason for text in texts if (reason := _reason(word, text))]
        if mine:
            # Two places at most: more reasons make a row harder to read and no more right.
            reasons += mine[:2]
        else:
            missed.append(word.typed)
    return tuple(reasons), tuple(missed)


def _reason(word: Word, text: Text) -> Reason | None:
    what, words, is_number = text
    if not words:
        return None
    found = (match_number(words, word) if is_number else None) or (None if is_number and word.digits else match(words, word))
    if found is None and not is_number:
        for other in word.also:
            if also := match(words, Word(other, "".join(c for c in other.lower() if c.isalnum()), "")):
                return Reason(what, "also called so", also, word.typed)
    if found is None:
        return None
    if not found.before and not found.after:
        return Reason(what, "is", found)
    if is_number:
        return Reason(what, "holds", found)
    return Reason(what, "begins" if found.begins else "has", found)


def _marked(text: str, words: Sequence[Word]) -> tuple[tuple[str, bool], ...]:
    """A text in pieces, those that some word matched marked."""
    pieces: list[tuple[str, bool]] = [(text, False)]
    for word in words:
        cut: list[tuple[str, bool]] = []
        for piece, lit in pieces:
            found = None if lit else (match(piece, word) or match_number(piece, word))
            if found is None:
                cut.append((piece, lit))
            else:
                cut += [(found.before, False), (found.hit, True), (found.after, False)]
        pieces = [piece for piece in cut if piece[0]]
    return tuple(pieces)
