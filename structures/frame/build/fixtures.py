"""What is bought whole and goes to known places of the frame."""

from __future__ import annotations

from collections.abc import Iterator

from structures.frame.build.frame import LETTER, SIDES, Frame
from structures.frame.document import Joint, Point
from structures.frame.family import Fixture

Place = tuple[str, Point, int | None, str, float | None, tuple[str, ...]]    # code, at, hoop, side, from the foot, holds


def build_fixtures(frame: Frame) -> None:
    """Put in every fixture that this configuration has."""
    for fixture in frame.family.fixtures:
        if frame.has(fixture.option):
            kind = frame.family.fittings[fixture.fitting].kind
            for code, at, hoop, side, s, holds in _places(frame, fixture):
                frame.joints.append(Joint(frame.place(code, kind), code, kind, fixture.fitting, at, hoop, side,
                                          fixture.station or code.rpartition("-")[2], s, holds, fixture.option))


def _places(frame: Frame, fixture: Fixture) -> Iterator[Place]:
    if fixture.where == "end wall":
        yield f"E1-{fixture.code}", _on_wall(frame, fixture), None, "", None, ()
    elif fixture.where == "bays":
        for bay in range(1, frame.hoops):
            for side in SIDES:
                at = frame.point(side, _up(frame, fixture), frame.y(bay) + frame.spacing_in / 2)
                yield f"B{bay}{LETTER[side]}-{fixture.station or fixture.code}", at, None, side, None, ()
    else:
        for hoop in _hoops(frame, fixture):
            for side in SIDES:
                yield _on_hoop(frame, fixture, hoop, side)


def _on_hoop(frame: Frame, fixture: Fixture, hoop: int, side: str) -> Place:
    """A place at a hoop is a mark on it where the family names the station, else it is simply at that foot."""
    up = _up(frame, fixture)
    holds = (f"{frame.code(hoop, side, 'foot')}:section:1",)
    return (frame.code(hoop, side, fixture.station or "foot"), frame.point(side, up, frame.y(hoop)), hoop, side,
            up if fixture.station else None, holds)


def _hoops(frame: Frame, fixture: Fixture) -> list[int]:
    if fixture.where == "sides":
        return [1]
    if fixture.where == "corners":
        return [1, frame.hoops]
    return sorted({*range(1, frame.hoops + 1, fixture.every), frame.hoops})


def _up(frame: Frame, fixture: Fixture) -> float:
    return frame.family.stations[fixture.station].from_foot_in if fixture.station else 0.0


def _on_wall(frame: Frame, fixture: Fixture) -> Point:
    """At the tag end, half way from the middle to the left leg, at the height of the station."""
    x, y, z = frame.point("left", _up(frame, fixture), 0.0)
    return x / 2, y, z
