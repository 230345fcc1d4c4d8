"""What a line of the kit lights beside braces and ties: each hoop section, each stick of a purlin, as a group of its own.

Hoops are drawn whole and purlins by the run. Over them lies each piece as an unseen line, which a page can light and touch,
and which is drawn lit where it was asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from structures.frame.document import Member

from .scene import Scene
from .sheet import XY, Sheet


def draw_sections(sheet: Sheet, scene: Scene, drawn: Sequence[int], line_of: Callable[[Member], Sequence[XY]]) -> None:
    """Every hoop section of the drawn hoops; `line_of` gives its line on the sheet, empty where it is not seen."""
    hoops = set(drawn)
    _draw(sheet, scene, [m for m in scene.document.members if m.role == "section" and m.hoop in hoops], line_of)


def draw_sticks(sheet: Sheet, scene: Scene, lines_of: Callable[[Member], Sequence[tuple[XY, XY]]]) -> None:
    """Every piece that runs lengthwise: purlin ends and sticks, boards, pipes, runners; `lines_of` gives what is seen of it.

    A purlin piece that was asked for lights its whole run, which its view has drawn; anything else is lit here.
    """
    for member in scene.document.members:
        if member.hoop is None and abs(member.end[1] - member.start[1]) > 1:
            lines = lines_of(member)
            if lines:
                with sheet.piece(member.id, member.part):
                    lit = member.role not in ("stick", "end") and scene.asks_for(member.id, member.part)
                    for a, b in lines:
                        sheet.line("sec", a, b)
                        if lit:
                            sheet.line("lit-s", a, b)


def draw_posts(sheet: Sheet, scene: Scene, drawn: Sequence[int], line_of: Callable[[Member], Sequence[XY]]) -> None:
    """Every ground post of the drawn hoops."""
    hoops = set(drawn)
    _draw(sheet, scene, [m for m in scene.document.members if m.role == "post" and m.hoop in hoops], line_of)


def _draw(sheet: Sheet, scene: Scene, members: Sequence[Member], line_of: Callable[[Member], Sequence[XY]]) -> None:
    lines = [(member, line_of(member)) for member in members]
    seen = [(member, line) for member, line in lines if len(line) > 1]
    lit = [(member, line) for member, line in seen if scene.asks_for(member.id, member.part)]
    for _, line in lit:
        sheet.polyline("halo-s", line)
    for member, line in seen:
        with sheet.piece(member.id, member.part):
            sheet.polyline("sec", line)
            if scene.asks_for(member.id, member.part):
                sheet.polyline("lit-s", line)
