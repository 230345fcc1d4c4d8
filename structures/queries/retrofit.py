"""What an add-on pack would need for a frozen design, and when only the maker can say."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field, replace

from structures.frame.choose import read_configuration
from structures.frame.document import ENGINE, Document, OptionAnswer
from structures.frame.family import Configuration
from structures.frame.refusal import Refused
from structures.frame.retrofit import AddOn, add_on
from structures.frame.said import Said
from structures.models import Design, FamilyRevision
from structures.queries.designs import document_for
from structures.queries.families import family_of, revisions


@dataclass(frozen=True, slots=True)
class Pack:
    """The answer about one option. Either `found` and `document` (the structure with the option) are there, or `ask` says why
    only the maker can answer; `had` when the structure has the option already. `others` are revisions that offer it."""

    option: OptionAnswer
    had: bool = False
    found: AddOn | None = None
    document: Document | None = None
    ask: Said = field(default_factory=lambda: Said(""))
    others: tuple[FamilyRevision, ...] = ()


def options_to_add(document: Document) -> list[OptionAnswer]:
    """The options that this design has not, those that were offered first."""
    rows = [option for option in document.options if not option.included]
    return sorted(rows, key=lambda option: option.no_because != "offered, not bought")


def pack_for(design: Design, code: str, *, changed: Collection[str] = ()) -> Pack | None:
    """What a pack of this option would need, computed from the frozen design; None for an option that it does not know.

    `changed` are the places where the structure is known to differ from what was shipped.
    """
    frozen = design.read()
    option = next((option for option in frozen.options if option.code == code), None)
    if option is None:
        return None
    if option.included:
        return Pack(option, had=True)
    if option.no_because != "offered, not bought":
        return Pack(option, ask=option.no_words, others=_others(design, code))
    configuration = read_configuration(design.configuration)
    try:
        stands = frozen if frozen.engine == ENGINE else document_for(design.family, configuration)
        more = document_with(design.family, configuration, code)
    except Refused as refused:
        first = refused.refusals[0]
        return Pack(option, ask=Said(first.template, first.values))
    if not _same_frame(frozen, stands):
        return Pack(option, ask=Said("It was worked out by an earlier reckoning ({engine}), and today's places pieces elsewhere.",
                                     {"engine": frozen.engine}))
    return Pack(option, found=add_on(stands, more, changed=changed), document=more)


def document_with(revision: FamilyRevision, configuration: Configuration, code: str) -> Document:
    """The same structure with one option more: what that one needs is added, what it excludes is left out. One-off changes
    are carried over. Raises `Refused` where it can't be."""
    option = next((option for option in family_of(revision).options if option.code == code), None)
    needs, excludes = (option.needs, option.excludes) if option else ((), ())
    options = (configuration.options | {code, *needs}) - {*excludes}
    return document_for(revision, replace(configuration, options=options))


def _others(design: Design, code: str) -> tuple[FamilyRevision, ...]:
    """Other revisions of the family that offer the option, newest first."""
    found = [
        revision for revision in revisions().filter(code=design.family.code).exclude(pk=design.family.pk)
        if any(option.code == code and option.offer != "not offered" and not option.replaced_by
               for option in family_of(revision).options)
    ]
    return tuple(reversed(found))


def _same_frame(frozen: Document, today: Document) -> bool:
    """Whether today's reckoning puts every brace, tie and band where the frozen document has it, to a sixteenth."""
    return _places(frozen) == _places(today)


def _places(document: Document) -> dict[str, tuple[str, int | None]]:
    return {
        joint.id: (joint.fitting, None if joint.from_foot_in is None else round(joint.from_foot_in * 16))
        for joint in document.joints if joint.kind == "band"
    }
