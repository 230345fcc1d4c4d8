"""`manage.py plan_walks`."""

from io import StringIO

import pytest
from django.core.management import call_command

from tests.inspections import walking

pytestmark = pytest.mark.django_db


def _run() -> str:
    out = StringIO()
    call_command("plan_walks", stdout=out)
    return out.getvalue().strip()


def test_it_puts_down_what_is_due_once(ada):
    structure = walking.structure(ada)
    walking.structure(ada, "T-0500", finished_on=None)
    assert _run() == f"{structure.visits.count()} new"
    assert structure.visits.count() > 0
    assert _run() == "0 new"
