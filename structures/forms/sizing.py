"""One look at the size-and-options page: what stands, what was refused, and what was chosen last."""

from __future__ import annotations

from dataclasses import dataclass, replace

from django.http import QueryDict

from structures.forms.sizes import PLAIN, ForOrder, Standing, Typed, moved_to_family, stand
from structures.frame.document import Document, OptionAnswer
from structures.frame.lengths import read_length, show_length
from structures.frame.names import listed
from structures.frame.refusal import Refused
from structures.making import Difference, KitRow, difference, kit_rows, lit_pieces
from structures.queries.designs import document_for
from structures.queries.families import family_of, revisions, years_words
from structures.sentences import counted, say_by_field

LONGEST_QUERY = 1000


@dataclass(frozen=True)
class OptionRow:
    """One option as the page shows it: a box when it can be had, a sentence when it can't."""

    code: str
    name: str
    can: bool
    checked: bool
    words: str
    lit: bool


@dataclass(frozen=True)
class Sizing:
    """Everything the page says. `refusals` are sentences by field; `typed` is what stands in the fields."""

    typed: Typed
    standing: Standing
    document: Document
    before: Standing | None
    before_document: Document | None
    refusals: dict[str, list[str]]
    units: str
    moved: str = ""
    for_order: ForOrder | None = None

    @property
    def changed(self) -> Difference | None:
        """What was chosen last changed this much; None on a first look, and from family to family: no piece of one is
        a piece of the other."""
        if self.before_document is None or self.before_document.family != self.document.family:
            return None
        found = difference(self.before_document, self.document)
        return found if found.any else None

    @property
    def lit(self) -> frozenset[str]:
        return lit_pieces(self.document, self.changed)

    @property
    def kit(self) -> list[KitRow]:
        return kit_rows(self.document, self.changed)

    @property
    def choice(self) -> tuple[str, str] | None:
        """What was chosen last and what it does, in words: ("Roof braces", "add 8 pieces, 16 bands")."""
        if self.before is None or self.before_document is None or self.changed is None:
            return None
        return _choice_words(self, self.before, self.changed)

    @property
    def column(self) -> str:
        """The head of the column that counts what the last choice changed."""
        added = self._options_gained()
        return f"{added[0].name} {_verb(added[0].name)}" if len(added) == 1 else "The last choice changes"

    @property
    def refused_options(self) -> list[str]:
        return self.refusals.get("options", [])

    @property
    def unplaced(self) -> list[str]:
        """Refusals that belong to no field of the page."""
        known = {"family", "length", "spacing", "base", "ends", "options"}
        return [sentence for field, said in self.refusals.items() if field not in known for sentence in said]

    @property
    def options(self) -> list[OptionRow]:
        """Every option of the family, with its kind of no in words."""
        gained = {option.code for option in self._options_gained()}
        chosen = self.typed.options if self.typed.options is not None else self.standing.typed.options
        return [_option_row(option, set(chosen or ()), option.code in gained, self.units) for option in self.document.options]

    @property
    def query(self) -> str:
        """The address of what stands."""
        return self.standing.typed.text

    @property
    def carried(self) -> str:
        """What an address of these choices ends with, so that they stay with their order; "" without one."""
        return f"&{self.for_order.text}" if self.for_order else ""

    @property
    def undo(self) -> str:
        """The address of what stood before the last choice; "" when nothing did."""
        if self.before is None:
            return ""
        return self.before.typed.text

    def _options_gained(self) -> list[OptionAnswer]:
        if self.before_document is None:
            return []
        had = {option.code for option in self.before_document.options if option.included}
        return [option for option in self.document.options if option.included and option.code not in had]


def look(query: QueryDict, *, units: str) -> Sizing | None:
    """Read the page's address. None while no family is loaded."""
    sizing = _look(query, units)
    return replace(sizing, for_order=ForOrder.read(query)) if sizing else None


def _look(query: QueryDict, units: str) -> Sizing | None:
    last, before = _earlier(query.get("last", ""), units), _earlier(query.get("before", ""), units)
    typed, moved = Typed.read(query), ""
    if last:
        asked, typed = typed.length, moved_to_family(typed, last, units)
        moved = asked if typed.length != asked else ""
    try:
        now, document = _computed(typed, units)
    except Refused as refused:
        return _refused_look(typed, refused, last, before, units)
    if last is not None and last.typed != now.typed:
        before = last
    earlier = document_for(before.revision, before.configuration) if before else None
    return Sizing(now.typed, now, document, before, earlier, {}, units, _moved_words(moved, now, units))


def _moved_words(asked: str, now: Standing, units: str) -> str:
    """That another family has no such length: "W18 has no length of 24-0: its nearest is 25-0."; "" when it has."""
    if not asked:
        return ""
    wanted, nearest = read_length(asked), now.configuration.length_in
    return f"{now.revision.code} has no length of {show_length(wanted, units)}: its nearest is {show_length(nearest, units)}."


def _refused_look(
    typed: Typed, refused: Refused, last: Standing | None, before: Standing | None, units: str
) -> Sizing | None:
    """Nothing moves: the drawing stays at the last that stands, the fields keep what was typed."""
    if last is None:
        try:
            last, _ = _computed(Typed(family=typed.family), units)
        except Refused:
            try:
                last, _ = _computed(Typed(), units)
            except Refused:
                return None
    document = document_for(last.revision, last.configuration)
    earlier = document_for(before.revision, before.configuration) if before else None
    kept = replace(typed, **{name: getattr(typed, name) or getattr(last.typed, name) for name in PLAIN})
    said = say_by_field(refused, units)
    for refusal in refused.refusals:
        if refusal.code == "spacing-not-made":
            said["spacing"].append(_made_before(last, refusal.values["spacing_in"], units))
    said = {field: [sentence for sentence in sentences if sentence] for field, sentences in said.items()}
    return Sizing(kept, last, document, before, earlier, said, units)


def _made_before(standing: Standing, spacing_in: float, units: str) -> str:
    """Which revisions of this family had the spacing: "6-0 was revision A, as made 2016 to 2018."; "" when none had."""
    others = [
        f"revision {one.revision}, {years_words(one.effective, one.until)}"
        for one in revisions().filter(code=standing.revision.code).exclude(pk=standing.revision.pk)
        if any(abs(spacing_in - made) < 0.02 for made in family_of(one).spacings_in)
    ]
    return f"{show_length(spacing_in, units)} was {listed(others)}." if others else ""


def _computed(typed: Typed, units: str) -> tuple[Standing, Document]:
    now = stand(typed, units=units)
    return now, document_for(now.revision, now.configuration)


def _earlier(text: str, units: str) -> Standing | None:
    """Choices carried in the address; somebody may have changed it by hand, and then there are none."""
    if not text or len(text) > LONGEST_QUERY:
        return None
    try:
        return _computed(Typed.read(QueryDict(text)), units)[0]
    except Refused:
        return None


def _verb(name: str) -> str:
    return "add" if name.endswith("s") else "adds"


def _choice_words(sizing: Sizing, before: Standing, changed: Difference) -> tuple[str, str]:
    now, was = sizing.standing.configuration, before.configuration
    gained, lost = now.options - was.options, was.options - now.options
    same_size = replace(now, options=was.options) == was and sizing.standing.revision == before.revision
    names = {option.code: option.name for option in sizing.document.options}
    if same_size and gained and not lost:
        name = listed([names[code] for code in sorted(gained)])
        return name, f"{'add' if len(gained) > 1 else _verb(name)} {_amount(sizing, changed)}"
    if same_size and lost and not gained:
        return f"{listed([names[code] for code in sorted(lost)])} left out:", f"{_amount(sizing, changed)} fewer"
    return _what_moved(sizing, before), _more_or_fewer(sizing, changed)


def _what_moved(sizing: Sizing, before: Standing) -> str:
    now, was = sizing.standing, before
    if now.revision != was.revision:
        return f"{now.typed.family} instead of {was.typed.family}:"
    if now.configuration.length_in != was.configuration.length_in:
        return f"Length {show_length(now.configuration.length_in, sizing.units)}:"
    if now.configuration.spacing_in != was.configuration.spacing_in:
        return f"Spacing {show_length(now.configuration.spacing_in, sizing.units)}:"
    if now.configuration.base != was.configuration.base:
        return f"Base {now.configuration.base}:"
    if now.configuration.ends != was.configuration.ends:
        return f"End walls {listed(list(now.configuration.ends))}:"
    return "Options changed:"


def _amount(sizing: Sizing, changed: Difference) -> str:
    """ "8 pieces, 16 bands", or the parts themselves when no piece of tube is among them."""
    said = [
        counted(abs(count), word) for count, word in ((changed.pieces, "piece"), (changed.bands, "band")) if count
    ]
    return ", ".join(said) if said else _parts_words(sizing, changed)


def _more_or_fewer(sizing: Sizing, changed: Difference) -> str:
    said = [
        f"{counted(abs(count), word)} {'more' if count > 0 else 'fewer'}"
        for count, word in ((changed.pieces, "piece"), (changed.bands, "band"))
        if count
    ]
    return ", ".join(said) if said else _parts_words(sizing, changed)


def _parts_words(sizing: Sizing, changed: Difference) -> str:
    documents = (sizing.document, sizing.before_document or sizing.document)
    names = {line.part: line.name for document in documents for line in document.lines}
    shown = [f"{abs(count):,} of {names[part]}" for part, count in list(changed.parts.items())[:2]]
    rest = len(changed.parts) - len(shown)
    return listed([*shown, counted(rest, "other part")] if rest else shown)


def _option_row(option: OptionAnswer, chosen: set[str], lit: bool, units: str) -> OptionRow:
    can = option.included or option.no_because == "offered, not bought"
    brings = ", ".join(
        counted(count, word) for count, word in ((option.pieces, "piece"), (option.bands, "band")) if count
    )
    if not can:
        words = option.no_words.in_units(units)
    elif option.included:
        words = _included_words(option, brings)
    else:
        words = f"Offered, not bought: would add {brings}." if brings else "Offered, not bought."
    return OptionRow(option.code, option.name, can, option.code in chosen, words, lit)


def _included_words(option: OptionAnswer, brings: str) -> str:
    if option.standard:
        return f"standard, {brings}" if brings else "standard"
    return f"{_verb(option.name)} {brings}" if brings else "included"
