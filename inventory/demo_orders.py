"""The orders of the demo: what is promised today, what was shipped in the years before, and their stories.

Everything goes through the same actions as a person's work. Pieces of shipped orders come in by a receipt of their own
lots and leave again, so that what lies in the bins today is not touched. An order that is there already stays as it is.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from uuid import NAMESPACE_URL, UUID, uuid5

from django.db import transaction
from django.utils import timezone

from inventory.actions.customers import keep_customer
from inventory.actions.orders import LineSpec, confirm_order, new_draft
from inventory.actions.paper_orders import PaperOrder, enter_paper_order
from inventory.actions.parts import sync_parts
from inventory.actions.picking import From, record_pick
from inventory.actions.shipments import Stands, ship
from inventory.actions.supply import Arrived, take_in
from inventory.models import Bin, Customer, Holding, Order, Part, PickLine
from structures.frame.choose import choose
from structures.models import FamilyRevision, User
from structures.queries.families import family_of

Say = Callable[[str], None]

# name: (farm, town, phone)
CUSTOMERS = {
    "Ada Quill": ("Quillmere Croft", "Quillmere", "(207) 555-0117"),
    "Joss Tarrant": ("", "Low Sedge", "555 0412"),
    "Bram Sallow": ("Sallow Bank", "Alder Ford", "207-555-0126"),
    "Tamsin Orde": ("", "Ravelstow", "+1 207 555 0131"),
    "Ilse Harrow": ("", "Netherfold", "207.555.0139"),
    "Wyke Hill Growers": ("", "Upper Wyke", "207 555 0142"),
    "Dunmarsh Farm": ("", "Dunmarsh", "207 555 0144"),
    "Corin Vey": ("Vey Hollow", "Hob Lane", "207 555 0148"),
    "Merrin Stook": ("", "Netherfold", "207 555 0151"),
    "Odo Fennick": ("Fennick Reach", "Low Sedge", "207 555 0153"),
    "Petra Lowe-Garth": ("", "Ravelstow", "207 555 0156"),
    "Silas Thornby": ("Thornby Acre", "Quillmere", "207 555 0159"),
    "Nell Arrowsmith": ("", "Alder Ford", "207 555 0162"),
    "Hesper Blye": ("Blye End", "Dunmarsh", "207 555 0165"),
}
TODAY_NAMES = (
    "Corin Vey", "Merrin Stook", "Odo Fennick", "Petra Lowe-Garth", "Silas Thornby", "Nell Arrowsmith", "Hesper Blye",
    "Tamsin Orde", "Bram Sallow", "Wyke Hill Growers", "Ilse Harrow", "Dunmarsh Farm",
)


@dataclass(frozen=True, slots=True)
class Sold:
    """A shipped order of the past. `later` are roles that went in a second load, on `later_on`; `lots` by part number."""

    number: int
    name: str
    family: str
    feet: int
    shipped_on: date
    tag: str
    called: str
    with_: tuple[str, ...] = ()
    later: tuple[str, ...] = ()
    later_on: date | None = None
    lots: Mapping[str, str] = field(default_factory=dict)
    note: str = ""
    town: str = ""


_ADA_LOTS = {
    "HS26-S": "T-2207", "HS26-R": "T-2211", "GP166-30": "T-2190", "PS131-106": "T-2214", "SB26": "P-304", "RL26-L": "P-306",
    "RL26-R": "P-307", "RU26": "P-306", "TI26": "P-298", "PE131-10": "P-300", "BC190": "C-0402", "CC190-131": "C-0388",
}
_SOFT = {"BC190": "C-0417"}
SHIPPED = (
    Sold(655, "Wyke Hill Growers", "G26-A", 72, date(2017, 4, 11), "T-0231", "Top field", note="Asked later whether the "
         "snow pack made for 4 ft spacing fits its 6 ft: ask the maker."),
    Sold(877, "Ada Quill", "G20-A", 48, date(2017, 5, 3), "T-0388", "Orchard end", town="Alder Ford"),
    Sold(931, "Dunmarsh Farm", "G26-C", 72, date(2020, 3, 24), "T-0305", "River side"),
    Sold(1040, "Hesper Blye", "G30-A", 96, date(2021, 2, 16), "T-0340", "Long house"),
    Sold(1180, "Bram Sallow", "R14-A", 40, date(2023, 8, 28), "T-0431", "Seedling house"),
    Sold(1183, "Joss Tarrant", "G26-D", 72, date(2024, 2, 18), "T-0405", "Back field", lots=_SOFT,
         note="Claim, day 6: two side braces of the G20 (4-0 7/16) were packed for two of the G26; their lower bands come to "
         "lie 2 5/16 in. above the mark."),
    Sold(1207, "Ada Quill", "G26-D", 48, date(2024, 3, 12), "T-0412", "Long field", with_=("film",),
         later=("film", "channel"), later_on=date(2024, 4, 4), lots=_ADA_LOTS,
         note="Film and channel followed 23 days later; the film was first said to be missing."),
    Sold(1209, "Nell Arrowsmith", "G26-D", 72, date(2024, 3, 19), "T-0415", "Hill side", lots=_SOFT),
    Sold(1211, "Silas Thornby", "G30-B", 96, date(2024, 3, 27), "T-0417", "Road end", lots=_SOFT),
)
# What is promised today: family, feet, how many, options beyond the standard ones.
PROMISED = (
    ("R14-A", 40, 5, ()), ("G20-B", 48, 10, ()), ("G26-D", 72, 9, ("film",)), ("G30-B", 96, 4, ()),
)
# Orders whose numbers and names the stories know: (family, which of the family's, number, name, days from today).
NAMED = {
    ("G30-B", 0): (1219, "Wyke Hill Growers", -4), ("G26-D", 0): (1226, "Bram Sallow", -1),
    ("G20-B", 0): (1231, "Tamsin Orde", 7),
}
FIRST_OPEN = 1260
SNOW_PACK = (("TI26", 8), ("BC190", 16), ("BT516-1", 16), ("NT516", 16))
SNOW_PACKS, RE_COVERS = 14, 5
LOOSE = (("SB20", 2), ("BC166", 4), ("BT516-1", 4), ("NT516", 6), ("SC14", 50), ("UB14", 4), ("BT38-3", 6))
LOOSE_TAKEN = 4


def load(say: Say) -> None:
    """Add the customers and orders that are missing. Needs the demo's people and families."""
    by = User.objects.get(username="warehouse")
    for revision in FamilyRevision.objects.filter(part_uses__isnull=True):
        sync_parts(revision, by=by)
    for sold in SHIPPED:
        if not _there(sold.number):
            say(f"order {sold.number}, shipped {sold.shipped_on:%b %Y}")
            _ship(sold, by)
    today = timezone.localdate()
    made = _promise(today, by) + _loose_orders(today, by)
    made += _draft_and_paper(today, by)
    say(f"orders: {Order.objects.count()}, {made} of them new and open")


def _there(number: int, *, unchecked: bool = False) -> bool:
    return Order.objects.filter(number=number, unchecked=unchecked).exists()


def _customer(name: str) -> Customer:
    farm, town, phone = CUSTOMERS[name]
    return keep_customer(name=name, farm=farm, town=town, phone=phone, by=None)


def _structure(family: str, feet: int, with_: tuple[str, ...] = ()) -> LineSpec:
    code, _, letter = family.partition("-")
    revision = FamilyRevision.objects.get(code=code, revision=letter)
    return LineSpec(revision, choose(family_of(revision), length_in=12.0 * feet, with_=with_))


def _key(*words: object) -> UUID:
    """The same key on every run, so that a run that was broken off is taken up where it stopped."""
    return uuid5(NAMESPACE_URL, "demo orders " + " ".join(map(str, words)))


@transaction.atomic
def _ship(sold: Sold, by: User) -> None:
    order = new_draft(
        _customer(sold.name), [_structure(sold.family, sold.feet, sold.with_)], by=by, number=sold.number,
        taken_on=sold.shipped_on - timedelta(days=35), promised_on=sold.shipped_on, note=sold.note,
    )
    order = confirm_order(order, by=by)
    lines = list(order.pick.lines.select_related("part"))
    later = [line for line in lines if line.part.role in sold.later]
    _take(order, [line for line in lines if line not in later], sold.lots, sold.shipped_on, by)
    stands = {1: Stands(tag=sold.tag, name=sold.called, town=sold.town)}
    ship(order, by=by, shipped_on=sold.shipped_on, structures=stands, carrier="our own truck")
    if later and sold.later_on:
        _take(order, later, sold.lots, sold.later_on, by)
        ship(order, by=by, shipped_on=sold.later_on, carrier="freight")


def _take(order: Order, lines: list[PickLine], lots: Mapping[str, str], on: date, by: User) -> None:
    """Take in the pieces of these lines by a receipt of their own lot, and pick exactly those."""
    homes = {line.pk: _home(line.part) for line in lines}
    lot_of = {line.pk: lots.get(line.part.number) or _lot(order, line.part) for line in lines}
    take_in(
        [Arrived(line.part, homes[line.pk], lot_of[line.pk], line.still_to_pick) for line in lines],
        supplier="press and mill", paper=f"history of {order.label}", received_on=on - timedelta(days=14), note="",
        key=_key("receipt", order.label, on), by=by,
    )
    for line in lines:
        taken_from = From(homes[line.pk], lot_of[line.pk])
        record_pick(line, line.still_to_pick, key=_key("pick", order.label, line.part.number), by=by, taken_from=taken_from)


def _home(part: Part) -> Bin:
    """The bin that a part has a place in, else one at the end of the walk."""
    holding = Holding.objects.filter(part=part, bin__held_back=False).select_related("bin").in_walking_order().first()
    if holding is not None:
        return holding.bin
    return Bin.objects.get_or_create(code="Y-01", defaults={"walk": 9_000, "zone": "yard"})[0]


def _lot(order: Order, part: Part) -> str:
    """Lots of history: by order, as the batch was made for it; nobody wrote down which bolts came from where."""
    if part.kind == "fastener":
        return "unknown"
    return f"{'T' if part.kind == 'tube' else 'C'}-{order.number}"


def _promise(today: date, by: User) -> int:
    """Today's promises: 28 kits, two of them late."""
    made, number = 0, FIRST_OPEN
    for family, feet, count, with_ in PROMISED:
        for n in range(count):
            number += 1
            named = NAMED.get((family, n))
            its_number, name, days = named or (number, TODAY_NAMES[number % len(TODAY_NAMES)], 5 + (number - FIRST_OPEN) * 2)
            if _there(its_number):
                continue
            _confirm(its_number, name, [_structure(family, feet, with_)], today, days, by)
            made += 1
    return made


@transaction.atomic
def _confirm(number: int, name: str, lines: list[LineSpec], today: date, days: int, by: User, note: str = "") -> Order:
    order = new_draft(
        _customer(name), lines, by=by, number=number, taken_on=today - timedelta(days=21),
        promised_on=today + timedelta(days=days), note=note,
    )
    return confirm_order(order, by=by)


def _parts(wanted: tuple[tuple[str, int], ...]) -> list[LineSpec]:
    parts = Part.objects.in_bulk([number for number, _ in wanted], field_name="number")
    return [LineSpec(part=parts[number], quantity=count) for number, count in wanted]


def _loose_orders(today: date, by: User) -> int:
    """Snow packs and re-cover film to be added to what stands, and one order of loose parts that is being picked."""
    made = 0
    for n in range(SNOW_PACKS + RE_COVERS):
        number = FIRST_OPEN + 40 + n
        if _there(number):
            continue
        snow = n < SNOW_PACKS
        lines = _parts(SNOW_PACK if snow else (("FR44-100", 1),))
        note = "Snow pack for a standing G26." if snow else "Film to cover a standing frame again."
        _confirm(number, TODAY_NAMES[n % len(TODAY_NAMES)], lines, today, 12 + 3 * n, by, note)
        made += 1
    if not _there(1236):
        with transaction.atomic():
            order = _confirm(1236, "Dunmarsh Farm", _parts(LOOSE), today, 8, by, "Parts for T-0231.")
            lines = list(order.pick.lines.select_related("part").order_by("pk"))[:LOOSE_TAKEN]
            _take(order, lines, {}, today, by)
        made += 1
    return made


def _draft_and_paper(today: date, by: User) -> int:
    made = 0
    if not _there(1233):
        with transaction.atomic():
            new_draft(
                _customer("Ilse Harrow"), [_structure("G26-D", 48)], by=by, number=1233, taken_on=today - timedelta(days=2),
                promised_on=today + timedelta(days=14), note="Length is not settled: 48 or 60 ft.",
            )
        made += 1
    if not _there(93, unchecked=True):
        revision = FamilyRevision.objects.get(code="G26", revision="C")
        enter_paper_order(
            PaperOrder(
                name="Dunmarsh Farm", revision=revision, stated="revision C", length_in=12.0 * 96, town="Dunmarsh",
                options_said="side braces, ties", number=93,
            ),
            by=by,
        )
        made += 1
    return made
