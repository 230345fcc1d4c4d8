"""Weights of tube from diameter and wall."""

from __future__ import annotations

from structures.frame.family import Family, Part

STEEL = 10.69      # lb per foot and square inch of (D - t) t: pi x 12 x 0.2836 lb/in3; ASME B36.10M gives 10.69 as well


def pounds_per_foot(diameter_in: float, wall_in: float) -> float:
    """Weight of steel tube: 10.69 (D - t) t lb/ft, D and t in inches (ASME B36.10M, section 5)."""
    return STEEL * (diameter_in - wall_in) * wall_in


def piece_weight(family: Family, part: Part) -> float | None:
    """Weight of one piece in pounds: tube by its cut length, else what the file states; None is unknown."""
    if part.tube:
        tube = family.tubes[part.tube]
        cut = part.cut_in if part.cut_in is not None else part.length_in
        return None if cut is None else pounds_per_foot(tube.diameter_in, tube.wall_in) * cut / 12
    return part.weight_lb
