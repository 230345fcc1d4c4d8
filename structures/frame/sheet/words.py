"""The words that a build sheet uses and a stranger to the trade does not know: only those that this document needs."""

from __future__ import annotations

from collections.abc import Iterator

from structures.frame.sheet.telling import Telling, station_words

_TAG = "where hoop 1 stands and the structure's tag is fixed; the other is the far end"
_BAND = ("a strap round the hoop with two ears; a piece's flat end is bolted between them. “Ears to hoop 2”: they point along the row "
         "that way")
_EDGE = "the side of a band or connector that you meet first as you measure: draw the mark there, and what goes on lies beyond it"
_SEAM = "where two hoop sections meet: the mouth of the plain end. A swaged end is necked down and goes into a plain one"
_SET = "bolted where its mark is. “From” a place: it begins where the piece before it came to lie"
_FOLLOWS = ("the piece has one length, so this band slides along the hoop to meet its hole. Well off its mark it means a wrong piece, or a "
            "bay that is out")
_TWIST = ("one flat end turned against the other; right turns like a screw thread. Turning the piece end for end doesn't change its hand. "
          "What bands take up needs no turned end")


def words_used(telling: Telling) -> tuple[tuple[str, str], ...]:
    """Each word with what it means on this sheet, in the order in which one meets them."""
    return (("tag end", _TAG), *_figures(telling), *_signs(telling), *_places(telling), *_hoops(telling), *_braces(telling))


def _figures(telling: Telling) -> Iterator[tuple[str, str]]:
    """How a length is written, by the first of the sheet's own."""
    if telling.units == "us":
        figure = telling.figure(telling.document.measures.clear_gap_in)
        feet, _, inches = figure.partition("-")
        yield figure, f"{feet} feet and {inches} inches"


def _signs(telling: Telling) -> Iterator[tuple[str, str]]:
    if telling.letters:
        shown = sorted(set(telling.letters.values()))
        yield ("Letters " + " to ".join((shown[0], shown[-1])) if len(shown) > 1 else f"Letter {shown[0]}",
               "a part, the same on every page; the part number beside it stands on its bundle's label")
    if telling.document.braces:
        yield "Thin rings", "places of bands on a corner's page, (1) in its steps. Rings at the ground are hoops"


def _places(telling: Telling) -> Iterator[tuple[str, str]]:
    """The stations of the codes from the foot upward, each with the word that drawings have for it."""
    marks = sorted((mark for mark in telling.document.marks if mark.kind != "seam"), key=lambda mark: mark.from_foot_in)
    stations = list(dict.fromkeys(mark.code for mark in marks))
    if stations:
        yield "Places on a hoop", "from the foot up: " + ", ".join(map(_with_word, stations))


def _with_word(station: str) -> str:
    word = station_words(station)
    return station if word == station else f"{station} ({word})"


def _hoops(telling: Telling) -> Iterator[tuple[str, str]]:
    kinds = {mark.kind for mark in telling.document.marks}
    if kinds & {"band", "connector"}:
        yield "edge", _EDGE
    if telling.seams_in:
        yield "seam", _SEAM
    if "band" in kinds:
        yield "band", _BAND
    if telling.document.hardware:
        yield "points in", "toward the inside of the structure. Finger-tight: the nut is on, and the band still slides"


def _braces(telling: Telling) -> Iterator[tuple[str, str]]:
    document = telling.document
    if not document.braces:
        return
    at = [landing.code for brace in document.braces for landing in (brace.landing_from, brace.landing_to)]
    if len(at) > len(set(at)):
        yield "butted", "two bands that touch, one above the other. Each has a mark of its own and holds a piece of its own"
    yield "set", _SET
    yield "follows", _FOLLOWS
    if any(abs(brace.twist_deg) > 0 for brace in document.braces):
        yield "twist", _TWIST
    if any(brace.twist_made for brace in document.braces):
        yield "turned end", "the flat end that the press has turned, so that it lies along its hoop. It is bolted last"
