"""What comes before the first hoop: checking, setting out, what the hoops stand on, and the marks."""

from __future__ import annotations

import math
from collections.abc import Iterator

from structures.frame.document import Piece
from structures.frame.said import Said, together
from structures.frame.sequence import cautions
from structures.frame.sequence.act import GROUND_ROLES, Act, Site, Told
from structures.frame.sequence.skin import last_cut
from structures.frame.sequence.words import joints_said, listed, parts_said, plural
from structures.frame.spacers import spacers

STANDS_ON = {"post": "post", "runner": "runner"}


def ground_acts(site: Site) -> Iterator[Act]:
    """Check, set out, drive the posts, lay the runners, mark the hoops."""
    yield Act("check", "site", lambda act: _check(site))
    yield Act("layout", "site", lambda act: _layout(site), after=("check",))
    yield from _posts(site)
    yield from _runners(site)
    yield Act("marks", "marks", lambda act: _marks(site), after=("check",))


def _of_role(site: Site, role: str) -> list[Piece]:
    return [piece for piece in site.frame.members if piece.role == role]


def _check(site: Site) -> Told:
    pieces = list(site.frame.pieces())
    kinds = len({piece.part for piece in pieces})
    return Told(
        Said("Count the parts against the packing list: {count} pieces of {kinds} kinds. Photograph each bag and bundle end "
             "before it is opened.", {"count": len(pieces), "kinds": kinds}),
        Said("What is short is asked for before anything stands, and a photo of a bundle's end can be counted again later."),
    )


def _layout(site: Site) -> Told:
    """Where nothing is driven or laid along the sides, the hoops' own places are set out with the corners."""
    frame = site.frame
    wide = frame.family.shape.width_in
    does = Said("Set out the four corners with string: {length_in} between the middles of hoop 1 and hoop {hoops}, {width_in} between "
                "the middles of the two legs. Both diagonals measure {diagonal_in}.",
                {"length_in": frame.length_in, "width_in": wide, "hoops": frame.hoops,
                 "diagonal_in": math.hypot(frame.length_in, wide)})
    said_later = any(is_ground(piece) for piece in frame.members)
    return Told(
        does if said_later else together([does, _totals(site)], " "),
        Said("With equal diagonals the corners are square, and every hoop after them stands square to the row."),
        (cautions.BURIED,),
    )


def _posts(site: Site) -> Iterator[Act]:
    """The four corner posts, then the rest along a line between them."""
    posts = [piece for piece in site.frame.members if piece.role == "post"]
    ends = (1, site.frame.hoops)
    corner = [post for post in posts if post.hoop in ends]
    rest: list[Piece] = [post for post in posts if post.hoop not in ends]
    if corner:
        yield Act("corner posts", "base", lambda act: _corner_posts(site, act), [*corner], after=("layout",),
                  puts_in="ground posts")
    if rest:
        yield Act("posts", "base", lambda act: _other_posts(site, act), rest, after=("layout", "corner posts"),
                  puts_in="ground posts")


def _corner_posts(site: Site, act: Act) -> Told:
    return Told(
        Said("Drive the {count} corner posts ({parts}) with a drive cap, plumb, to stand {stands_in} above the ground line and to "
             "one height.",
             {"count": len(act.pieces), "parts": _numbers(act), "stands_in": _stands(site)}),
        Said("The corners carry the line that all other posts are driven to; without a cap their tops spread."),
        (cautions.BURIED, cautions.WHO_DECIDES),
    )


def _numbers(act: Act) -> str:
    """The part numbers of what is driven, which the sentence has counted."""
    return listed(list(dict.fromkeys(piece.part for piece in act.pieces)))


def _stands(site: Site) -> float:
    posts = site.frame.family.posts
    return posts.stands_in if posts else 0.0


def _other_posts(site: Site, act: Act) -> Told:
    does = Said("Pull a line from corner post to corner post on both sides and drive the other {count} ({parts}) to it, to the same "
                "height of {stands_in}.",
                {"count": len(act.pieces), "parts": _numbers(act), "stands_in": _stands(site)})
    return Told(together([does, _totals(site)], " "),
                Said("Measured from hoop 1 each time, small errors don't add up along the row."), (cautions.BURIED,))


def _totals(site: Site) -> Said:
    """How far each hoop stands from hoop 1: the first ones, and the last."""
    frame = site.frame
    boards = spacers(frame.hoops, frame.spacing_in, 2 * frame.hoop_radius_in)
    shown = [*range(2, min(frame.hoops, 5)), frame.hoops]
    parts = [Said("{total_in} to hoop {hoop}", {"total_in": boards.totals_in[hoop - 1], "hoop": hoop})
             for hoop in dict.fromkeys(shown)]
    far = together(parts, ", ")
    return Said("From the middle of hoop 1: " + far.template + ".", far.values)


def _runners(site: Site) -> Iterator[Act]:
    runners = _of_role(site, "runner")
    if runners:
        yield Act("runners", "base", lambda act: _lay_runners(site, act), runners, after=("layout", "corner posts", "posts"),
                  puts_in="runners")


def _lay_runners(site: Site, act: Act) -> Told:
    splices = joints_said(site.frame.family, act.joints)
    said = [Said("Lay a runner along each side, {parts}{splices}.",
                 {"parts": parts_said(site.frame.family, [piece.part for piece in act.pieces]),
                  "splices": f", joined with {splices}" if splices else ""})]
    cut = last_cut(site, act.pieces)
    if cut is not None:
        said.append(Said("The last stick of each side is sawn to {cut_in}.", {"cut_in": cut}))
    return Told(together([*said, _totals(site)], " "),
                Said("Every hoop's foot stands on the runner, so both lie straight, level and square before one does."),
                (*((cautions.SAW,) if cut is not None else ()), cautions.WHO_DECIDES))


def _marks(site: Site) -> Told:
    frame = site.frame
    return Told(
        Said("Mark the hoops on the ground, along the tube from each foot upward, left and right alike; the ridge lies {ridge_in} "
             "from either foot.", {"ridge_in": frame.half_in}),
        Said("A mark is within reach now. Measured from one foot over to the other, the seams gain or lose length."),
    )


def is_ground(piece: Piece) -> bool:
    """Whether a piece is what a hoop's foot stands in or on."""
    return piece.role in GROUND_ROLES


def on_what(site: Site) -> str:
    """What the hoops are stood on, in words."""
    roles = {piece.role for piece in site.frame.members}
    names = [plural(STANDS_ON[role]) for role in GROUND_ROLES if role in roles]
    return f"on their {' and '.join(names)}" if names else "at their marks"
