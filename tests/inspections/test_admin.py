"""The admin looks on at what was recorded and changes the rest."""

import pytest
from django.urls import reverse

from inspections.actions.observations import add_photo
from inspections.models import Storm, Visit, WalkRule
from tests.inspections import walking

pytestmark = pytest.mark.django_db
RECORDED = ("observation", "photo", "faultrequest")


@pytest.fixture
def visit(ada):
    visit = walking.under_way(walking.structure(ada), ada)
    walking.wrong(visit, ada)
    add_photo(visit, walking.picture(), "p.jpg", by=ada, device_at=None, corner="tag left")
    return visit


@pytest.fixture
def admin(olive, client_for):
    olive.is_staff = olive.is_superuser = True
    olive.save()
    return client_for(olive)


@pytest.mark.parametrize("name", [*RECORDED, "visit", "storm", "walkrule"])
def test_every_kind_of_row_is_listed(visit, olive, admin, name):
    walking.storm(olive)
    assert admin.get(reverse(f"admin:inspections_{name}_changelist")).status_code == 200


@pytest.mark.parametrize("name", RECORDED)
def test_what_was_recorded_is_only_looked_at(visit, admin, name):
    row = {"observation": visit.observations, "photo": visit.photos, "faultrequest": visit.structure.fault_requests}[name].get()
    change = reverse(f"admin:inspections_{name}_change", args=[row.pk])
    page = admin.get(change)
    assert page.status_code == 200
    assert 'name="_save"' not in page.content.decode()
    assert admin.post(change, {"place": "x"}).status_code == 403
    assert admin.get(reverse(f"admin:inspections_{name}_add")).status_code == 403
    assert admin.post(reverse(f"admin:inspections_{name}_delete", args=[row.pk]), {"post": "yes"}).status_code == 403


def test_a_rule_can_be_put_right_and_one_that_cannot_be_read_is_refused(admin):
    rule = WalkRule.objects.get(code="spring")
    url = reverse("admin:inspections_walkrule_change", args=[rule.pk])
    fields = {
        "code": "spring", "name": "Spring walk", "recurrence": "FREQ=YEARLY;BYMONTH=4;BYMONTHDAY=11", "minutes": "30 minutes",
        "active": "on",
    }
    assert admin.post(url, fields).status_code == 302
    rule.refresh_from_db()
    assert rule.recurrence.endswith("BYMONTHDAY=11")
    page = admin.post(url, {**fields, "recurrence": "FREQ=WEEKLY"})
    assert "FREQ is WEEKLY: write one of YEARLY, MONTHLY, DAILY." in page.content.decode()


def test_a_storms_note_can_be_put_right_and_its_towns_cannot(olive, admin):
    storm = walking.storm(olive)
    url = reverse("admin:inspections_storm_change", args=[storm.pk])
    admin.post(url, {"gust_mph": "62", "source": "the mast", "note": "read again", "towns": '["Dunn"]'})
    storm.refresh_from_db()
    assert (storm.gust_mph, storm.note, storm.towns) == (62, "read again", ["Quillmere"])
    assert admin.post(reverse("admin:inspections_storm_delete", args=[storm.pk]), {"post": "yes"}).status_code == 403
    assert Storm.objects.exists()


def test_a_visit_that_was_begun_is_not_deleted(visit, admin):
    assert admin.post(reverse("admin:inspections_visit_delete", args=[visit.pk]), {"post": "yes"}).status_code == 403
    assert Visit.objects.filter(pk=visit.pk).exists()
