"""The nouns of a structure, one file each."""

from structures.models.designs import Design
from structures.models.events import Event, KeyedRequest
from structures.models.families import FamilyRevision
from structures.models.people import SignInTry, User
from structures.models.structures import AsBuiltChange, Belonging, MeasuredBack, Structure

__all__ = [
    "AsBuiltChange",
    "Belonging",
    "Design",
    "Event",
    "FamilyRevision",
    "KeyedRequest",
    "MeasuredBack",
    "SignInTry",
    "Structure",
    "User",
]
