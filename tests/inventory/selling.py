"""Orders for tests, made through the same actions as everybody's: plain functions."""

from __future__ import annotations

from datetime import date
from io import BytesIO
from pathlib import Path
from uuid import uuid4

from PIL import Image

from inventory import ledger
from inventory.actions.customers import keep_customer
from inventory.actions.orders import LineSpec, confirm_order, new_draft
from inventory.actions.paper_orders import PaperOrder, enter_paper_order
from inventory.actions.picking import record_pick
from inventory.models import Bin, Customer, Order, Part
from structures.actions.families import load_family
from structures.frame.choose import choose
from structures.models import FamilyRevision, User
from structures.photos import take_in
from structures.queries.families import family_of

FAMILIES = Path(__file__).resolve().parents[2] / "structures" / "families"
PROMISED = date(2026, 3, 10)


def a_family(name: str = "g26-d", by: User | None = None) -> FamilyRevision:
    """One of the demo families, loaded as an owner loads it."""
    return load_family((FAMILIES / f"{name}.toml").read_text(), source=f"{name}.toml", by=by)


def a_customer(name: str = "Ada Quill", **facts: str) -> Customer:
    facts = {"farm": "Quillmere Croft", "town": "Quillmere", "phone": "207 555 0117", **facts}
    return keep_customer(name=name, by=None, **facts)


def a_structure(revision: FamilyRevision | None = None, feet: float = 48, **chosen) -> LineSpec:
    revision = revision or a_family()
    return LineSpec(revision, choose(family_of(revision), length_in=feet * 12, **chosen))


def a_draft(*lines: LineSpec, customer: Customer | None = None, by: User | None = None, **facts) -> Order:
    facts = {"promised_on": PROMISED, "taken_on": date(2026, 2, 1), **facts}
    return new_draft(customer or a_customer(), list(lines) or [a_structure()], by=by, **facts)


def a_confirmed(*lines: LineSpec, by: User | None = None, **facts) -> Order:
    return confirm_order(a_draft(*lines, by=by, **facts), by=by)


def a_photo(size=(640, 480), colour="white") -> bytes:
    """A small JPEG, as a telephone would send one."""
    out = BytesIO()
    Image.new("RGB", size, colour).save(out, "JPEG")
    return out.getvalue()


def a_paper_order(by: User | None = None, *, photo: bool = False, name: str = "Dunmarsh Farm", feet: float = 96, **said) -> Order:
    """An order known only from paper: a G26 of revision C."""
    paper = PaperOrder(
        name=name, revision=a_family("g26-c"), stated="revision C", length_in=12 * feet,
        photo=take_in(a_photo(), "invoice.jpg") if photo else None, **said,
    )
    return enter_paper_order(paper, by=by)


def stock(part: Part | str, count: int, *, by: User, bin: str = "C-14", lot: str = "P-304", walk: int = 100) -> Bin:
    """So many pieces of one lot into a bin, through the ledger."""
    part = part if isinstance(part, Part) else Part.objects.get(number=part)
    place, _ = Bin.objects.get_or_create(code=bin, defaults={"walk": walk})
    ledger.post([ledger.Entry(part, place, count, lot)], key=uuid4(), by=by, kind="received", reference="receipt")
    return place


def stock_for(order: Order, *, by: User, spare: int = 0) -> None:
    """Everything that an order wants, each part in a bin of its own in order of part number."""
    for n, line in enumerate(order.pick.lines.select_related("part").order_by("part__number"), 1):
        stock(line.part, line.to_pick + spare, by=by, bin=f"A-{n:02d}", lot=f"P-{n:03d}", walk=n)


def pick_all(order: Order, *, by: User) -> None:
    for line in order.pick.lines.all():
        if line.still_to_pick:
            record_pick(line, line.still_to_pick, key=uuid4(), by=by)
