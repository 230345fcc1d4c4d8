"""A frame of two bays made by hand, so that what a walk looks at is tested without the computation that makes frames.

13 ft of tube a half: a 4 ft leg, a bend of 4 ft radius, a straight roof. One brace at the tag end right, one tie on hoop
2, a ridge purlin, posts, film and boards of the right side only where a test needs no more.
"""

from __future__ import annotations

import math

from structures.frame.document import (
    Brace,
    Document,
    Joint,
    Landing,
    Measures,
    Member,
    Panel,
    Tie,
    Totals,
)
from structures.frame.profile import Profile

SPACING_IN = 48.0
BEND_IN = 48.0 * math.radians(65)
PROFILE = Profile.chain(72.0, [("line", 48.0, 0.0), ("arc", BEND_IN, 48.0), ("line", 48.0, 0.0)])


def small_document(**changes) -> Document:
    """Two bays, three hoops; every list may be replaced by name."""
    fields = {
        "schema": 1, "engine": "hand", "family": "s12", "family_name": "S12", "title": "S12 x 8 ft", "revision": "A",
        "effective": "2020-01-01", "changed": "", "rated_wind": "not rated, ask the maker",
        "rated_snow": "not rated, ask the maker", "family_sha256": "0" * 64, "configuration": {},
        "measures": _measures(), "profile": PROFILE.write(),
        "stations": {"foot": 8.0, "mid": 30.0, "shoulder": 80.0, "tie": 120.0},
        "tubes": {"hoop": 1.9, "post": 1.66, "purlin": 1.315, "side-brace": 1.315, "tie": 1.315}, "put_up": "whole",
        "options": (), "lines": (), "members": _members(), "joints": _joints(), "braces": (_brace(),), "ties": (_tie(),),
        "marks": (), "cuts": (), "panels": _panels(), "warnings": (),
        "totals": Totals(10, 100.0, None, "GP", 5.0, "GP", 36.0),
    }
    return Document(**{**fields, **changes})


def point(hoop: int, side: str, s: float) -> tuple[float, float, float]:
    """A point on a hoop, s inches along the tube from its foot."""
    u, z = PROFILE.point(s)
    return (-u if side == "left" else u, (hoop - 1) * SPACING_IN, z)


def _measures() -> Measures:
    half = PROFILE.half_in
    return Measures(2, 3, 1, SPACING_IN, 96.0, 144.0, PROFILE.peak_in, 2 * half, half, 46.1, 48.0, 48.0, 25.0, 0.0)


def _member(place_id: str, role: str, start, end, **more) -> Member:
    fields = {
        "id": place_id, "role": role, "part": f"P-{role}", "from_": place_id.split(":")[0], "to": "", "length_in": 36.0,
        "start": start, "end": end, "radius_in": 0.66, "option": "", "hoop": None, "s_from_in": None, "s_to_in": None,
    }
    return Member(**{**fields, **more})


def _members() -> tuple[Member, ...]:
    posts = tuple(
        _member(f"H{hoop}-{side[0].upper()}-foot:post:1", "post", point(hoop, side, 0), point(hoop, side, 12))
        for hoop in (1, 2, 3) for side in ("left", "right")
    )
    section = _member("H1-L-foot:section:1", "section", point(1, "left", 0), point(1, "right", 0), hoop=1)
    stick = _member("B1-ridge:stick:1", "stick", (0, 12, 130), (0, 84, 130))
    end = _member("B1-ridge:end:1", "end", (0, 0, 130), (0, 12, 130))
    return (*posts, section, stick, end)


def joint(place_id: str, hoop: int | None, side: str, s: float, holds: tuple[str, ...] = ()) -> Joint:
    """A joint on a hoop, or between hoops when `hoop` is None."""
    code, kind, _ = place_id.split(":")
    at = point(hoop or 1, side, s)
    return Joint(place_id, code, kind, kind, at, hoop, side, code.split("-")[-1], s, holds, "")


def _joints() -> tuple[Joint, ...]:
    bolts = tuple(
        joint(f"H{hoop}-{side[0].upper()}-foot:bolt:1", hoop, side, 4) for hoop in (1, 2, 3) for side in ("left", "right")
    )
    return (
        *bolts,
        joint("H2-R-foot:band:1", 2, "right", 8, ("B1-R-side:brace:1",)),
        joint("H1-R-hip:band:1", 1, "right", 48, ("B1-R-side:brace:1",)),
        joint("H2-L-tie:band:1", 2, "left", 120, ("H2-tie:tie:1",)),
        joint("H2-R-tie:band:1", 2, "right", 120, ("H2-tie:tie:1",)),
        joint("H2-ridge:connector:1", 2, "", PROFILE.half_in),
        joint("H1-ridge:band:1", 1, "", PROFILE.half_in, ("B1-ridge:end:1",)),
        joint("B1-ridge:slip:1", None, "", PROFILE.half_in),
    )


def _landing(joint_id: str, hoop: int, side: str, s: float) -> Landing:
    code = joint_id.split(":")[0]
    return Landing(code, joint_id, hoop, side, code.split("-")[-1], s, s, s, True, point(hoop, side, s))


def _brace() -> Brace:
    return Brace(
        "B1-R-side:brace:1", "side-brace", "side", "side-braces", "SB", "tag right", "side", "H2-R-foot", "H1-R-hip", 60.0,
        60.0, 0.0, "none", False, 0.0, 0.0, 1.0, "film", {}, "from",
        _landing("H2-R-foot:band:1", 2, "right", 8), _landing("H1-R-hip:band:1", 1, "right", 48),
    )


def _tie() -> Tie:
    return Tie(
        "H2-tie:tie:1", "tie", "ties", "TI", "H2-L-tie", "H2-R-tie", 96.0, 2, 120.0, 30.0,
        _landing("H2-L-tie:band:1", 2, "left", 120), _landing("H2-R-tie:band:1", 2, "right", 120),
    )


def _panels() -> tuple[Panel, ...]:
    film = tuple(
        Panel(f"{code}-{zone}:film:1", f"{code}-{zone}", "film", bay, None, side, zone, low, high, "film")
        for bay in (1, 2)
        for side, code in (("left", f"B{bay}-L"), ("right", f"B{bay}-R"))
        for zone, low, high in (("side", 0.0, 54.0), ("roof", 54.0, 150.0))
    )
    ends = tuple(Panel(f"E{n}-wall:wall:1", f"E{n}-wall", "wall", None, n, "", "", None, None, "") for n in (1, 2))
    channel = Panel("B1-R-hip:channel:1", "B1-R-hip", "channel", 1, None, "right", "hip", 54.0, 54.0, "channel")
    over_end = Panel("H1-ridge:channel:1", "H1-ridge", "channel", None, 1, "", "", None, None, "channel")
    return (*film, *ends, channel, over_end)
