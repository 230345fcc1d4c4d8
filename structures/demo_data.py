"""What the demo starts with: the family files that come with the product, and one person for each role."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from django.db import transaction

from structures.actions.families import load_family
from structures.actions.people import let_in
from structures.models import FamilyRevision, User

FAMILIES = Path(__file__).parent / "families"
PASSWORD = "hoops-demo"
PEOPLE = (
    ("owner", "owner", "Runa", "Holt"),
    ("support", "support", "Sela", "Brandt"),
    ("warehouse", "warehouse", "Piet", "Aldous"),
    ("grower", "grower", "Ada", "Quill"),
    ("grower2", "grower", "Bram", "Sallow"),
)


def load(say: Callable[[str], None]) -> None:
    """Add the people and families that are missing; what is there, changed by a person or not, stays as it is."""
    for username, role, first, last in PEOPLE:
        _person(username, role, first, last)
    files = sorted(FAMILIES.glob("*.toml"))
    say(f"families: {len(files)} files")
    for path in files:
        if not FamilyRevision.objects.filter(source=path.name).exists():
            load_family(path.read_text(), source=path.name, by=None)


@transaction.atomic
def _person(username: str, role: str, first: str, last: str) -> None:
    if User.objects.filter(username=username).exists():
        return
    owns = role == User.Role.OWNER
    values = {
        "username": username, "role": role, "first_name": first, "last_name": last,
        "email": f"{first.lower()}@hoops.example", "is_staff": owns, "is_superuser": owns,
    }
    let_in(values, password=PASSWORD, by=None)
