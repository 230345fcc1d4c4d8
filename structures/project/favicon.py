"""The picture that browsers ask for by themselves where no page names one, as beside a PDF."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.templatetags.static import static

from structures.access import everyone


@everyone
def favicon(request: HttpRequest) -> HttpResponse:
    """Lead to the hoop that every page shows in its tab."""
    return redirect(static("structures/hoop.svg"))
