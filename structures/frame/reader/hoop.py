"""The hoop as it is shipped: sections, seams and swages, how it is put up, and the posts it stands on."""

from __future__ import annotations

import math

from structures.frame.family import Hoop, Posts, Seam
from structures.frame.reader.access import NAN, Table
from structures.frame.reader.stations import Places


def read_hoop(top: Table, places: Places) -> Hoop:
    """Read [hoop] and [[hoop.seams]]."""
    table = top.table("hoop")
    if table is None:
        return Hoop("", "", (), ())
    seams = tuple(_seam(item, places) for item in table.tables("seams", "side"))
    hoop = Hoop(
        tube=table.text("tube", like="hoop"),
        put_up=table.choice("put_up", ("whole", "sides first")),
        sections=table.texts("sections"),
        seams=seams,
    )
    table.done()
    wanted = 1 + sum(2 if seam.side == "both" else 1 for seam in seams)
    if hoop.sections and len(hoop.sections) != wanted:
        table.problems.add("section-count", table.key("sections"), "{key} names {count} sections, and the seams join "
                           "{wanted}: name them from the left foot over the ridge to the right foot.",
                           count=len(hoop.sections), wanted=wanted)
    return hoop


def _seam(item: Table, places: Places) -> Seam:
    side = item.choice("side", ("both", "left", "right", "ridge"))
    words = item.text("at", "ridge" if side == "ridge" else "")
    if not item.has("at") and side != "ridge":
        item.missing("at", 'write where its mouth lies from the foot, like "12-0" or "ridge - 6in"')
    seam = Seam(
        side=side,
        from_foot_in=places.read(item.key("at"), words) if words else NAN,
        swage_in=item.length("swage", least=0.5, most=60.0),
        swaged=item.choice("swaged", ("lower", "upper") if side == "both" else ("left", "right")),
        screw_from_mouth_in=item.length("screw_from_mouth", most=60.0),
        fitting=item.text("fitting", like="joint-screw"),
        may_be_covered=item.flag("may_be_covered", False),
    )
    if seam.screw_from_mouth_in > seam.swage_in:
        item.problems.add("seam-screw", item.key("screw_from_mouth"), "{key} = {screw_in} misses the swage, which is "
                          "{swage_in} long: less than that would do.", screw_in=seam.screw_from_mouth_in,
                          swage_in=seam.swage_in)
    item.done()
    return seam


def read_posts(top: Table) -> Posts | None:
    """Read [posts]; a family without posts has no such block."""
    table = top.table("posts", required=False)
    if table is None:
        return None
    posts = Posts(
        part=table.text("part", like="GP166-30"),
        inside=table.flag("inside"),
        stands_in=table.length("stands", most=120.0),
        bolt_at_in=table.length("bolt_at", most=120.0),
        fitting=table.text("fitting", like="foot-bolt"),
    )
    table.done()
    if posts.bolt_at_in > posts.stands_in:
        table.problems.add("post-bolt", table.key("bolt_at"), "{key} = {bolt_in} is above the post, which stands "
                           "{stands_in} above ground: less than that would do.", bolt_in=posts.bolt_at_in,
                           stands_in=posts.stands_in)
    return posts


def seams_over(hoop: Hoop, developed_in: float) -> list[tuple[Seam, float]]:
    """Every seam with its mouth's place from the LEFT foot, left to right."""
    placed = []
    for seam in hoop.seams:
        if seam.side in ("both", "left", "ridge"):
            placed.append((seam, developed_in / 2 if seam.side == "ridge" else seam.from_foot_in))
        if seam.side in ("both", "right"):
            placed.append((seam, developed_in - seam.from_foot_in))
    if any(math.isnan(at) for _, at in placed):
        return []
    return sorted(placed, key=lambda item: item[1])
