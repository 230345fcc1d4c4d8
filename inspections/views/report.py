"""The report of a visit on paper."""

from __future__ import annotations

import base64
from datetime import datetime

from inspections.models import Photo
from inspections.queries.reports import Report
from structures.papers import make_paper


def report_pdf(report: Report, *, printed_at: datetime) -> bytes:
    """The report as PDF bytes, photos and all. Raises `Refuse` when this machine can't make PDFs."""
    pictures = {
        "wrong": [(wrong, [_picture(photo) for photo in wrong.photos]) for wrong in report.wrong],
        "corners": [(corner, [_picture(photo) for photo in photos]) for corner, photos in report.corners],
        "others": [_picture(photo) for photo in report.other_photos],
    }
    context = {"report": report, "visit": report.visit, "structure": report.visit.structure, "printed_at": printed_at, **pictures}
    return make_paper("pdf/visit_report.html", context)


def _picture(photo: Photo) -> tuple[Photo, str]:
    """A photo with its small copy as an address that the PDF library needs no network for."""
    with photo.small.open("rb") as file:
        return photo, f"data:image/jpeg;base64,{base64.b64encode(file.read()).decode()}"
