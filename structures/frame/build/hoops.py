"""Hoops: sections from foot to foot, the seams between them, and the ground posts."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.build.frame import LETTER, SIDES, Frame
from structures.frame.document import Joint, Member
from structures.frame.family import Posts, Seam


@dataclass(frozen=True)
class SeamPlace:
    """A seam on the whole hoop: `total_in` from the LEFT foot over the ridge."""

    seam: Seam
    side: str
    from_foot_in: float
    total_in: float
    swage_before: bool             # the section before it (nearer the left foot) has the swaged end


def seam_places(frame: Frame) -> list[SeamPlace]:
    """Every seam of a hoop, from the left foot over the ridge to the right foot."""
    places = []
    whole = 2 * frame.half_in
    for seam in frame.family.hoop.seams:
        sides = SIDES if seam.side == "both" else ("" if seam.side == "ridge" else seam.side,)
        for side in sides:
            s = frame.half_in if side == "" else seam.from_foot_in
            total = whole - s if side == "right" else s
            lower_before = side != "right"
            before = {"left": True, "right": False, "lower": lower_before, "upper": not lower_before}[seam.swaged]
            places.append(SeamPlace(seam, side, s, total, before))
    return sorted(places, key=lambda place: place.total_in)


def build_hoops(frame: Frame) -> None:
    """Put in every hoop's sections and seam screws, and its posts with their foot bolts."""
    seams = seam_places(frame)
    pieces = _sections(frame, seams)
    for hoop in range(1, frame.hoops + 1):
        _hoop(frame, hoop, pieces, seams)
    posts = driven_posts(frame)
    if posts:
        _posts(frame, posts)


def driven_posts(frame: Frame) -> Posts | None:
    """The family's ground posts, where this base has them."""
    return frame.family.posts if frame.base is None or frame.base.posts else None


def posts_reach_up(frame: Frame) -> float:
    """How far up the legs ground posts reach that stand round them, inches: no band goes there. 0 where none stands so."""
    posts = driven_posts(frame)
    return posts.stands_in if posts and not posts.inside else 0.0


def _sections(frame: Frame, seams: list[SeamPlace]) -> list[tuple[str, str, str, float, float]]:
    """(part, side letter and station of its lower end, of its other end, from, to) for each section of a hoop."""
    whole = 2 * frame.half_in
    end = frame.family.shape.tube_end_in
    marks = [end, *(place.total_in for place in seams), whole - end]
    names = ["-L-foot", *(f"{LETTER[place.side]}-seam" for place in seams), "-R-foot"]
    pieces = []
    for index, part in enumerate(frame.family.hoop.sections):
        low, high = marks[index], marks[index + 1]
        own, other = names[index], names[index + 1]
        if low >= frame.half_in - 1e-9:       # a right-hand section is named by its lower end, its right one
            own, other = other, own
        pieces.append((part, own, other, low, high))
    return pieces


def _hoop(frame: Frame, hoop: int, pieces: list[tuple[str, str, str, float, float]], seams: list[SeamPlace]) -> None:
    y = frame.y(hoop)
    radius = frame.hoop_radius_in
    ids = []
    for part, own, other, low, high in pieces:
        code = f"H{hoop}{own}"
        made = frame.part(part)
        ident = frame.place(code, "section")
        ids.append(ident)
        frame.members.append(Member(
            ident, "section", part, code, f"H{hoop}{other}", made.length_in or high - low,
            _whole_point(frame, low, y), _whole_point(frame, high, y), radius, "", hoop, low, high,
        ))
    for index, place in enumerate(seams):
        _seam(frame, hoop, y, place, (ids[index], ids[index + 1]))


def _seam(frame: Frame, hoop: int, y: float, place: SeamPlace, holds: tuple[str, str]) -> None:
    """The seam's screw, in the plain end, so far from its mouth."""
    away = place.seam.screw_from_mouth_in if place.swage_before else -place.seam.screw_from_mouth_in
    total = place.total_in + away
    side = place.side
    s = 2 * frame.half_in - total if side == "right" else total
    kind = frame.family.fittings[place.seam.fitting].kind
    code = frame.code(hoop, side, "seam")
    frame.joints.append(Joint(frame.place(code, kind), code, kind, place.seam.fitting, _whole_point(frame, total, y),
                              hoop, side, "seam", s, holds, ""))


def _whole_point(frame: Frame, total: float, y: float) -> tuple[float, float, float]:
    """The point `total` inches from the left foot over the ridge."""
    if total <= frame.half_in:
        return frame.point("left", total, y)
    return frame.point("right", 2 * frame.half_in - total, y)


def _posts(frame: Frame, posts: Posts) -> None:
    part = frame.part(posts.part)
    length = part.length_in or 0.0
    radius = frame.family.tubes[part.tube].radius_in
    for hoop in range(1, frame.hoops + 1):
        y = frame.y(hoop)
        for side in SIDES:
            code = frame.code(hoop, side, "foot")
            ident = frame.place(code, "post")
            frame.members.append(Member(
                ident, "post", posts.part, code, code, length, frame.point(side, posts.stands_in - length, y),
                frame.point(side, posts.stands_in, y), radius, "", hoop, None, None,
            ))
            frame.join(posts.fitting, hoop, side, "foot", posts.bolt_at_in, (ident, f"{code}:section:1"))
