"""Stock in the admin: the ledger can be looked at, bins and raw parts changed."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from inventory.actions.parts import sync_parts
from inventory.models import Bin, Holding, Movement, Part
from tests.factories import family_revision
from tests.inventory.stock import stocked

pytestmark = pytest.mark.django_db


@pytest.fixture
def admin(olive, client_for):
    return client_for(olive)


def at(model, page, *args):
    return reverse(f"admin:inventory_{model}_{page}", args=args)


@pytest.mark.parametrize("model", ["movement", "holding", "receipt"])
def test_the_ledger_can_only_be_looked_at(admin, wes, model):
    stocked(wes, "SB26", "C-14", 44)
    assert admin.get(at(model, "changelist")).status_code == 200
    assert admin.get(at(model, "add")).status_code == 403
    rows = {"movement": Movement, "holding": Holding}.get(model)
    if rows is not None:
        pk = rows.objects.get().pk
        assert admin.get(at(model, "change", pk)).status_code == 200
        assert admin.post(at(model, "change", pk), {"quantity": "45"}).status_code == 403
        assert admin.post(at(model, "delete", pk), {"post": "yes"}).status_code == 403
    assert Holding.objects.get().quantity == 44


def test_a_bin_is_made_and_its_code_stays(admin):
    admin.post(at("bin", "add"), {"code": "C-14", "walk": "140", "zone": "", "_save": "Save"})
    made = Bin.objects.get()
    admin.post(at("bin", "change", made.pk), {"code": "X-1", "walk": "15", "zone": "cage", "held_back": "on", "_save": "Save"})
    made.refresh_from_db()
    assert (made.code, made.walk, made.zone, made.held_back) == ("C-14", 15, "cage", True)


def test_a_bin_with_stock_can_not_be_deleted(admin, wes):
    _, bin = stocked(wes, "SB26", "C-14", 44)
    answer = admin.post(at("bin", "delete", bin.pk), {"post": "yes"})
    assert answer.status_code == 200   # Django's page that says what stands in the way
    assert Bin.objects.filter(pk=bin.pk).exists()


def test_what_a_family_defines_stands_and_what_is_ours_may_change(admin):
    sync_parts(family_revision("G26", "D"), by=None)
    part = Part.objects.get(number="SB26")
    typed = {"number": "X", "name": "X", "reorder_point": "40", "note": "press"}
    inline = {"uses-TOTAL_FORMS": "0", "uses-INITIAL_FORMS": "0"}
    admin.post(at("part", "change", part.pk), {**typed, **inline, "_save": "Save"})
    part.refresh_from_db()
    assert (part.number, part.name, part.reorder_point, part.note) == ("SB26", "Side brace, 26 ft", 40, "press")


def test_raw_tube_is_a_part_that_no_family_names(admin):
    typed = {
        "number": "TB131-24", "name": "Tube 1.315 x 17 ga, 24 ft", "role": "raw", "kind": "tube", "tube": "1.315 x .058",
        "unit": "each", "spares": "0", "pack": "1", "uses-TOTAL_FORMS": "0", "uses-INITIAL_FORMS": "0", "_save": "Save",
    }
    admin.post(at("part", "add"), typed)
    made = Part.objects.get()
    admin.post(at("part", "change", made.pk), {**typed, "number": "X", "name": "Raw tube"})
    made.refresh_from_db()
    assert (made.number, made.name) == ("TB131-24", "Raw tube")


@pytest.mark.parametrize("model", ["movement", "holding", "bin", "part"])
def test_lists_ask_as_much_for_one_row_as_for_three(admin, wes, model):
    def asked():
        with CaptureQueriesContext(connection) as queries:
            assert admin.get(at(model, "changelist")).status_code == 200
        return len(queries)

    stocked(wes, "SB26", "C-14", 44)
    admin.get(at(model, "changelist"))   # content types are remembered from here on
    once = asked()
    stocked(wes, "SB20", "C-15", 44)
    stocked(wes, "SB30", "C-16", 44)
    assert asked() == once
