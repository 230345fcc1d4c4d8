"""Walks for tests: a structure to walk round, a visit due or under way, a picture to send."""

from __future__ import annotations

from datetime import UTC, date, datetime
from io import BytesIO
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from inspections.actions.observations import Seen, observe
from inspections.actions.visits import begin_look, start_visit
from inspections.models import Observation, Storm, Visit
from inspections.states import STORM
from structures.models import Structure, User
from tests import factories

NOON = datetime(2026, 3, 10, 12, 0, tzinfo=UTC)
FOOT, HIP = "H3-R-foot:band:1", "H1-R-brace-hip:band:1"


def structure(belongs_to: User | None = None, tag: str = "T-0412", **fields: Any) -> Structure:
    """A G26 D of 24 ft, the shortest there is, which keeps walks short."""
    fields.setdefault("design", factories.design(length_in=288.0))
    return factories.structure(tag, belongs_to=belongs_to, **fields)


def storm(by: User, **fields: Any) -> Storm:
    """The gusts of 9 March over Quillmere, without any visit."""
    wanted = {"kind": "wind", "on": date(2026, 3, 9), "gust_mph": 61, "towns": ["Quillmere"], "source": "the mast at Alder Ford"}
    return Storm.objects.create(**{**wanted, **fields}, entered_by=by)


def due_visit(at: Structure, by: User, **fields: Any) -> Visit:
    """A visit due after the gusts, not begun."""
    over = storm(by)
    wanted = {"kind": STORM, "storm": over, "title": over.title, "due_on": over.on, "why": "Gusts of 61 mph near Quillmere."}
    return Visit.objects.create(structure=at, **{**wanted, **fields})


def under_way(at: Structure, by: User) -> Visit:
    """A look begun by this person."""
    return begin_look(at, by=by, device_at=NOON)


def started(visit: Visit, by: User) -> Visit:
    """The same visit, begun."""
    return start_visit(visit, by=by, device_at=NOON)


def wrong(visit: Visit, by: User, place: str = FOOT, **said: Any) -> Observation:
    """A brace end seen lifted."""
    values = {"state": "fault", "fault_class": "mend", "what": "lifted-end", **said}
    return observe(visit, Seen(place, **values), by=by, device_at=NOON)


def well(visit: Visit, by: User, place: str = FOOT) -> Observation:
    """A place seen as built."""
    return observe(visit, Seen(place, "well"), by=by, device_at=NOON)


def picture(colour: str = "grey", size: tuple[int, int] = (60, 80)) -> bytes:
    """A small JPEG."""
    out = BytesIO()
    Image.new("RGB", size, colour).save(out, "JPEG")
    return out.getvalue()


def upload(data: bytes | None = None, name: str = "photo.jpg") -> SimpleUploadedFile:
    """A file as a form sends it."""
    return SimpleUploadedFile(name, picture() if data is None else data, content_type="image/jpeg")
