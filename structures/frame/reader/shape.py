"""The hoop's shape: round, gothic (the tangent arc is solved), or segments one by one; checked against what is stated."""

from __future__ import annotations

import math

from structures.frame.family import Shape
from structures.frame.profile import Profile
from structures.frame.reader.access import NAN, Problems, Table

AGREE_IN = 0.25            # stated figures may differ from the computed ones by no more
Parts = tuple[tuple[str, float, float], ...]


def read_shape(top: Table) -> tuple[Shape, Profile, float]:
    """Read [shape]: the shape, its profile, and how far bands stay from a ridge that is a bend.

    Figures that make no hoop are noted and leave `nan` in the profile.
    """
    table = top.table("shape")
    if table is None:
        return Shape("gothic", NAN, NAN, ()), Profile.chain(NAN, [("line", NAN, 0.0)]), 0.0
    kind = table.choice("kind", ("round", "gothic", "segments"))
    width = table.length("width", least=12.0, most=2400.0)
    lean = table.number("lean_deg", 0.0, least=-45.0, most=45.0) if kind == "segments" else 0.0
    tube_end = table.length("tube_end", 0.0, least=-120.0, most=120.0)
    crown_clear = table.length("crown_clear", 0.0, most=48.0)
    stated_peak = table.optional_length("peak", least=1.0)
    stated_developed = table.optional_length("developed", least=1.0)
    leg = table.length("leg") if kind in ("round", "gothic") else NAN
    radius, pitch = NAN, NAN
    parts: Parts = ()
    if kind == "round":
        radius = _round_radius(table, width)
        parts = (("line", leg, 0.0), ("arc", radius * math.pi / 2, radius))
    elif kind == "gothic":
        pitch = table.number("pitch_deg", least=1.0, most=80.0)
        radius = _gothic_radius(table, width, leg, pitch, stated_peak)
        parts = _gothic(table.problems, width, leg, radius, pitch)
    elif kind == "segments":
        parts = _segments(table)
    table.done()
    parts = tuple(part for part in parts if part[1] != 0.0)
    profile = Profile.chain(width / 2, parts or [("line", NAN, 0.0)], lean)
    _check_crown(table, profile)
    _check(table, profile, width, stated_peak, stated_developed)
    return Shape(
        kind, _run(profile) * 2, profile.peak_in, parts, leg_in=_or_none(leg), radius_in=_or_none(radius),
        pitch_deg=_or_none(pitch), lean_deg=lean, tube_end_in=tube_end,
    ), profile, crown_clear


def _or_none(value: float) -> float | None:
    return None if math.isnan(value) else value


def _run(profile: Profile) -> float:
    """What the segments cover across, from foot to ridge."""
    return profile.point(0.0)[0] - profile.point(profile.half_in)[0]


def _round_radius(table: Table, width: float) -> float:
    radius = table.length("radius", width / 2, least=6.0)
    if abs(2 * radius - width) > AGREE_IN:
        table.problems.add("round-radius", table.key("radius"), "{key} = {radius_in} makes a hoop {made_in} wide, and "
                           "width says {width_in}: write radius {would_in}, or shape the hoop by segments.",
                           radius_in=radius, made_in=2 * radius, width_in=width, would_in=width / 2)
    return width / 2


def _gothic_radius(table: Table, width: float, leg: float, pitch: float, peak: float | None) -> float:
    """The stated radius, or the one that reaches the stated peak.

    With half width w and pitch p: peak = leg + r cos p + (w - r (1 - sin p)) tan p, solved for r.
    """
    stated = table.optional_length("radius", least=1.0)
    if stated is not None:
        return stated
    if peak is None:
        table.missing("radius", "write the bend's radius, or the peak and the radius is solved")
        return NAN
    p = math.radians(pitch)
    radius = (peak - leg - width / 2 * math.tan(p)) * math.cos(p) / (1 - math.sin(p))
    if radius < 1.0:
        table.problems.add("gothic-low", table.key("peak"), "{key} = {peak_in} is too low for a leg of {leg_in} and a "
                           "roof at {pitch:g} degrees: more than {least_in} would do.", peak_in=peak, leg_in=leg,
                           pitch=pitch, least_in=leg + width / 2 * math.tan(p) + (1 - math.sin(p)) / math.cos(p))
        return NAN
    return radius


def _gothic(problems: Problems, width: float, leg: float, radius: float, pitch: float) -> Parts:
    """Leg, tangent arc and straight roof."""
    turn = math.radians(90 - pitch)
    run = width / 2 - radius * (1 - math.cos(turn))
    if run <= 0:
        problems.add("gothic-wide", "shape.radius", "{key} = {radius_in} leaves no straight roof in a hoop {width_in} "
                     "wide: less than {most_in} would do.", radius_in=radius, width_in=width,
                     most_in=width / 2 / (1 - math.cos(turn)))
        run = NAN
    return (("line", leg, 0.0), ("arc", radius * turn, radius), ("line", run / math.sin(turn), 0.0))


def _segments(table: Table) -> Parts:
    parts = []
    for item in table.tables("segments", "kind", required=True):
        kind = item.choice("kind", ("line", "arc"))
        if kind == "arc":
            parts.append(_arc(item))
        else:
            parts.append(("line", item.length("length", least=0.0), 0.0))
        item.done()
    return tuple(parts)


def _arc(item: Table) -> tuple[str, float, float]:
    """An arc by two of length, radius and turn."""
    given = [name for name in ("length", "radius", "turn_deg") if item.has(name)]
    if len(given) != 2:
        item.problems.add("arc-figures", item.path, "{key} has {count} of length, radius and turn_deg: "
                          "write two of them.", count=len(given))
        for name in given:
            item.asked.add(name)
        return ("arc", NAN, NAN)
    length = item.length("length", NAN, least=0.01)
    radius = item.length("radius", NAN, least=1.0)
    turn = math.radians(item.number("turn_deg", NAN, least=0.01, most=180.0))
    if math.isnan(length):
        return ("arc", radius * turn, radius)
    return ("arc", length, length / turn if math.isnan(radius) else radius)


def _check_crown(table: Table, profile: Profile) -> None:
    """A tube that turns past level comes down again before the ridge."""
    turned = math.degrees(profile.heading(profile.half_in))
    if turned > 90.01:
        table.problems.add("shape-turns", table.key("segments"), "{key} turn the tube {turned:.1f} degrees from straight up, "
                           "so that it comes down before the ridge: 90 at most would do.", turned=turned)


def _check(table: Table, profile: Profile, width: float, peak: float | None, developed: float | None) -> None:
    """Stated width, peak and developed length against the segments."""
    made = {"width": 2 * _run(profile), "peak": profile.peak_in, "developed": 2 * profile.half_in}
    stated = {"width": width, "peak": peak, "developed": developed}
    for name, value in stated.items():
        if value is not None and abs(value - made[name]) > AGREE_IN:
            table.problems.add("shape-disagrees", table.key(name), "{key} = {stated_in}, and the segments make "
                               "{made_in}: write {made_in}, or change the figures of the shape.",
                               stated_in=value, made_in=made[name])
