"""An old order that is known only from paper: typed in, answered like any other, marked as not checked everywhere."""

from __future__ import annotations

from dataclasses import dataclass

from django.core.files.base import ContentFile
from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from inventory.actions.customers import keep_customer
from inventory.actions.orders import freeze_design_or_refuse
from inventory.models import InvoicePhoto, Order, OrderLine, OrderStatus, OrderVersion, SentStructure
from structures.events import record
from structures.frame.choose import choose, configuration_json
from structures.frame.refusal import Refused
from structures.models import FamilyRevision, Structure, User
from structures.photos import Photo
from structures.queries.families import family_of
from structures.refusals import Refuse
from structures.sentences import say

FIRST_PAPER = 1


@dataclass(frozen=True, slots=True)
class PaperOrder:
    """What a paper says. `stated` is its revision or year in its own words; `photo` what was taken in of it.

    `number` is for papers that were numbered before; None takes the next one.
    """

    name: str
    revision: FamilyRevision
    stated: str
    length_in: float
    with_: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    options_said: str = ""
    photo: Photo | None = None
    town: str = ""
    phone: str = ""
    number: int | None = None


def enter_paper_order(paper: PaperOrder, *, by: User | None) -> Order:
    """Keep an order known only from paper, with its frozen design and a structure of its own tag.

    The tag is the order's own label, since nobody has seen the structure. Raises `Refuse` when the size can't be.
    """
    units = by.units if by else "us"
    try:
        configuration = choose(
            family_of(paper.revision), length_in=paper.length_in, with_=paper.with_, without=paper.without
        )
    except Refused as refused:
        raise Refuse(say(refused, units), field=refused.refusals[0].field) from None
    with transaction.atomic():
        customer = keep_customer(name=paper.name, town=paper.town, phone=paper.phone, by=by)
        last = Order.objects.filter(unchecked=True).aggregate(last=Max("number"))["last"]
        order = Order.objects.create(
            number=paper.number or max(last or 0, FIRST_PAPER - 1) + 1, customer=customer, status=OrderStatus.FROM_PAPER, unchecked=True,
            taken_on=timezone.localdate(), stated=paper.stated[:80],
            note=f"Options as the paper has them: {paper.options_said}" if paper.options_said else "",
        )
        version = OrderVersion.objects.create(order=order, number=1, made_at=timezone.now(), made_by=by)
        design = freeze_design_or_refuse(paper.revision, configuration, by)
        OrderLine.objects.create(
            version=version, ordinal=1, family_revision=paper.revision, configuration=configuration_json(configuration),
            design=design,
        )
        version.confirmed_at = timezone.now()
        version.save(update_fields=["confirmed_at"])
        structure = Structure.objects.create(
            tag=order.label, name=f"{paper.revision.code} × {paper.length_in / 12:g} ft", design=design, town=customer.town,
            place=customer.farm, order_number=order.label, unchecked=True,
        )
        SentStructure.objects.create(order=order, ordinal=1, structure=structure)
        if paper.photo:
            _keep_photo(order, paper.photo, by)
        record(
            "typed in from paper", f"order {order.label}", who=by,
            after={"name": paper.name, "family": str(paper.revision), "stated": paper.stated,
                   "photo_sha256": paper.photo.sha256 if paper.photo else None},
        )
        return order


def _keep_photo(order: Order, photo: Photo, by: User | None) -> InvoicePhoto:
    row = InvoicePhoto(
        order=order, sha256=photo.sha256, width=photo.width_px, height=photo.height_px, kept_at=timezone.now(), kept_by=by
    )
    # Named by content and never by what the sender called it: a name from outside is no path of ours.
    row.original.save(f"{photo.sha256}.bin", ContentFile(photo.original), save=False)
    row.shown.save(f"{photo.sha256}.jpg", ContentFile(photo.shown), save=False)
    row.thumbnail.save(f"{photo.sha256}.jpg", ContentFile(photo.small), save=False)
    row.save()
    return row
