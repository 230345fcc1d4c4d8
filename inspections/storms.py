"""Storms: which towns they went over, and what is said to the people whose structures stand there.

Says what was measured, by whom, and what is usual to do after it. Says nothing of what a structure bears: no depth and
no gust is called harmless. Pure: no Django.
"""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

KINDS = {
    "wind": "gusts", "snow": "snow", "wet snow": "wet snow", "ice": "ice", "hail": "hail", "thaw": "thaw",
}
# Weight of water: one inch standing on one square foot weighs 5.2 lb (62.4 lb a cubic foot / 12).
PSF_PER_INCH_OF_WATER = 5.2
QUICK = "5 to 10 minutes, from outside first."
FULL = "A full walk, from outside first."


@dataclass(frozen=True, slots=True)
class Weather:
    """What a storm brought, as far as somebody measured it: gusts in miles an hour, depths in inches."""

    kind: str
    on: date
    gust_mph: int | None = None
    snow_in: float | None = None
    hail_in: float | None = None


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a figure means to those who publish it, and who that is."""

    words: str
    source: str


def read_towns(text: str) -> tuple[str, ...]:
    """The towns in a list written with commas, semicolons or line ends, each once, as they were written."""
    towns: dict[str, str] = {}
    for piece in re.split(r"[,;\n]", text):
        words = " ".join(piece.split())
        if town_key(words):
            towns.setdefault(town_key(words), words)
    return tuple(towns.values())


def town_key(town: str) -> str:
    """A town's name in the form in which two spellings of it are the same: no case, accents or points; "St" is "saint"."""
    plain = unicodedata.normalize("NFKD", town).encode("ascii", "ignore").decode() or town
    words = re.sub(r"[^\w\s]", " ", plain.casefold()).split()
    return " ".join({"st": "saint", "mt": "mount"}.get(word, word) for word in words)


def same_town(one: str, other: str) -> bool:
    """Whether two spellings mean one town."""
    return bool(town_key(one)) and town_key(one) == town_key(other)


def nearest_town(named: str, known: Iterable[str]) -> str:
    """The known town spelt most like the one named; "" when none is near."""
    by_key = {town_key(town): town for town in known if town_key(town)}
    near = difflib.get_close_matches(town_key(named), by_key, n=1, cutoff=0.75)
    return by_key[near[0]] if near else ""


def title(weather: Weather) -> str:
    """What the walk is called: "After the gusts of 9 March", "After the wet snow of 14 November"."""
    return f"After the {KINDS.get(weather.kind, weather.kind)} of {weather.on.day} {weather.on:%B}"


def measured(weather: Weather) -> str:
    """The figures in words, "61 mph" or "9 in. of wet snow"; "no figure was given" when there is none."""
    found = []
    if weather.gust_mph is not None:
        found.append(f"gusts of {weather.gust_mph} mph")
    if weather.snow_in is not None:
        found.append(f"{weather.snow_in:g} in. of {weather.kind if 'snow' in weather.kind else 'snow'}")
    if weather.hail_in is not None:
        found.append(f"{weather.hail_in:g} in. hail")
    return " and ".join(found) or "no figure was given"


def why(weather: Weather, town: str, source: str) -> str:
    """Why this structure is to be looked at: what was measured, where, who says so, and how long the look takes."""
    said = f"{measured(weather)} near {town}, says {source}."
    return f"{said[0].upper()}{said[1:]} {QUICK if not full_walk(weather) else FULL}"


def full_walk(weather: Weather) -> bool:
    """Whether a full walk is usual afterwards and not a quick one: warning-level gusts (58 mph) or hail of 1 in."""
    return (weather.gust_mph or 0) >= 58 or (weather.hail_in or 0) >= 1


def not_there(weather: Weather, *, finished_on: date | None, from_paper: bool) -> str:
    """Why no walk is due at a structure in a storm's way, "" when one is.

    One from paper without a finishing day has one due: it was sent long ago, and nobody said when it stood.
    """
    if finished_on is None:
        return "" if from_paper else "Still in parcels: no day is known on which it was finished."
    if finished_on > weather.on:
        return f"Finished on {finished_on.day} {finished_on:%B %Y}, after the storm."
    return ""


def meanings(weather: Weather) -> tuple[Meaning, ...]:
    """What the published criteria say about these figures."""
    found = []
    gust = weather.gust_mph or 0
    if gust >= 58:
        found.append(Meaning("Gusts of 58 mph or more are at warning level: look at every place afterwards.", _NWS))
    elif gust >= 46:
        found.append(Meaning("Gusts of 46 to 57 mph are at advisory level: close up before, look round after.", _NWS))
    if gust >= 60:
        found.append(Meaning("At about 60 mph hoop houses have been seen damaged and overturned.", _BARTOK))
    if (weather.hail_in or 0) >= 1:
        found.append(Meaning("Hail of 1 in. is at warning level: look at the film and every place.", _NWS))
    if weather.snow_in is not None:
        found.append(Meaning("The weight of snow goes by its water and not by its depth; no depth is called harmless.", _SNOW))
    return tuple(found)


_NWS = "National Weather Service criteria for advisories and warnings"
_BARTOK = "Bartok, Preparing Your Greenhouse for a Hurricane, University of Connecticut"
_SNOW = "Bartok, University of Connecticut, 2013"


def snow_weight_psf(depth_in: float, inches_for_one_of_water: float, rain_in: float = 0.0) -> float:
    """Weight on the ground, lb per square foot, of snow that melts down at this ratio (4 is wet, 10 is fluff), plus rain.

    Bartok, University of Connecticut, 2013: one inch of water is 5.2 psf.
    """
    return PSF_PER_INCH_OF_WATER * (depth_in / inches_for_one_of_water + rain_in)
