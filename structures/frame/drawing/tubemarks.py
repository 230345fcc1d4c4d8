"""The marks along the tube: what lies where, measured from the foot, for the section drawing and the table beside it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from structures.frame.lengths import sixteenths

from .scene import Piece, Scene

KEYS = "abcdefghjkmnpqrstuvwxyz"             # no i, l, o: they read as figures
_STATION_WORDS = {"brace-hip": "hip", "mid": "middle", "roof": "middle"}
_RUN_WORDS = {"purlin": "side purlin", "upper": "upper purlin"}


@dataclass(frozen=True, slots=True)
class TubeMark:
    """One mark: what it is for, how far from the foot along the tube, on which hoops; `figure` in a person's units."""

    key: str
    words: str
    hoops: str
    from_foot_in: float
    figure: str
    lit: bool
    offered: bool = False


def tube_marks(scene: Scene) -> tuple[TubeMark, ...]:
    """Every mark of a half hoop from foot to ridge, each place named once."""
    found: dict[tuple[str, int], tuple[float, set[int], bool, bool]] = {}
    for words, from_foot, hoops, lit, offered in (*_braces(scene), *_boards(scene), *_runs(scene), *_ties(scene),
                                                  *_seams(scene)):
        key = (words, sixteenths(from_foot))
        seen = found.get(key, (from_foot, set(), False, True))
        found[key] = (seen[0], seen[1] | set(hoops), seen[2] or lit, seen[3] and offered)
    half = scene.profile.half_in
    at_ridge = [key for key in found if key[1] == sixteenths(half)]
    ridge_words = ", ".join(["ridge", *(words for words, _ in at_ridge if words != "ridge")])
    for key in at_ridge:
        del found[key]
    rows = sorted(found.items(), key=lambda item: (item[1][0], item[0]))
    rows.append(((ridge_words, sixteenths(half)), (half, set(range(1, scene.hoops + 1)), False, False)))
    return tuple(
        TubeMark(_key(i), words, hoops_in_words(map(scene.number, hoops), scene.hoops), from_foot, scene.figure(from_foot), lit,
                 offered)
        for i, ((words, _), (from_foot, hoops, lit, offered)) in enumerate(rows)
    )


def _key(index: int) -> str:
    turn, place = divmod(index, len(KEYS))
    return KEYS[place] + (str(turn + 1) if turn else "")


def hoops_in_words(hoops: Iterable[int], count: int) -> str:
    """Which hoops, in words: "every hoop", "inner hoops", "even hoops", "H3 and H11"."""
    named = sorted(hoops)
    inner = list(range(2, count))
    if len(named) == count:
        return "every hoop"
    if len(named) > 2:
        for words, group in (("inner hoops", inner), ("even inner hoops", [h for h in inner if not h % 2]),
                             ("odd inner hoops", [h for h in inner if h % 2])):
            if named == group:
                return words
    if len(named) > 8:
        return f"{len(named)} hoops"
    codes = [f"H{hoop}" for hoop in named]
    return codes[0] if len(codes) == 1 else f"{', '.join(codes[:-1])} and {codes[-1]}"


def _braces(scene: Scene) -> list[tuple[str, float, list[int], bool, bool]]:
    found = []
    for pieces, offered in ((scene.pieces, False), (scene.phantoms, True)):
        for piece in pieces:
            if piece.zone == "tie":
                continue
            for landing in piece.landings:
                station = _STATION_WORDS.get(landing.station, landing.station.replace("-", " "))
                found.append((f"{piece.zone} brace, {station}", landing.node_in, [landing.hoop],
                              not offered and scene.is_lit(piece), offered))
    return found


def _boards(scene: Scene) -> list[tuple[str, float, list[int], bool, bool]]:
    """The hip, by what runs along it."""
    if scene.hip is None:
        return []
    return [(*scene.hip, list(range(1, scene.hoops + 1)), False, False)]


def _runs(scene: Scene) -> list[tuple[str, float, list[int], bool, bool]]:
    """Purlin runs: where their connectors and end bands grip the hoops."""
    places: dict[str, list[tuple[float, int]]] = {}
    codes = {run.code for run in scene.runs if run.side}
    for joint in scene.document.joints:
        if joint.station in codes and joint.from_foot_in is not None and joint.hoop:
            places.setdefault(joint.station, []).append((joint.from_foot_in, joint.hoop))
    found = []
    for code, at in places.items():
        # end bands are butted each side of the run's mark, so the mark is the middle of them all
        inner = [s for s, hoop in at if 1 < hoop < scene.hoops] or [s for s, _ in at]
        mark = scene.document.stations.get(code, sum(inner) / len(inner))
        found.append((_RUN_WORDS.get(code, f"{code} purlin"), mark, sorted({hoop for _, hoop in at}), False, False))
    return found


def _ties(scene: Scene) -> list[tuple[str, float, list[int], bool, bool]]:
    rows: list[tuple[str, float, list[int], bool, bool]] = []
    for pieces, offered in ((scene.pieces, False), (scene.phantoms, True)):
        for tie in (p for p in pieces if p.zone == "tie"):
            rows.append(("tie", tie.landings[0].node_in, [tie.hoops[0]], not offered and scene.is_lit(tie), offered))
    return rows


def _seams(scene: Scene) -> list[tuple[str, float, list[int], bool, bool]]:
    """Seams on the left side, or at the ridge; one that is only on the right is named on the right of the drawing."""
    hoops = list(range(1, scene.hoops + 1))
    return [("seam" if scene.on_both_sides(seam) else f"seam, {scene.side_of(seam.side)} only", seam.from_foot_in, hoops, False, False)
            for seam in scene.seams if seam.side != "right"]


def section_pieces(scene: Scene) -> tuple[list[Piece], list[Piece]]:
    """Lit and phantom pieces as a section shows them: each place along the tube once, whichever hoop it is on."""
    def once(pieces: Iterable[Piece]) -> list[Piece]:
        seen: dict[tuple[int, ...], Piece] = {}
        for piece in pieces:
            ends = sorted((round(at[0]), round(at[2])) for at in (piece.start, piece.end))
            seen.setdefault(tuple(value for end in ends for value in end), piece)
        return list(seen.values())
    return once(scene.lit), once(scene.phantoms)
