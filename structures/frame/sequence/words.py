"""Words that the sentences of the order of work are made of: hoops, counts, bolts, and what the roles are called."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from structures.frame.document import Joint
from structures.frame.family import Family, FittingSet, Part

# What people call a piece by its role; a role that is not here is said as the file has it.
ROLES = {
    "section": "hoop section", "post": "ground post", "runner": "runner stick", "stick": "purlin stick", "end": "purlin end",
    "side-brace": "side brace", "roof-lower": "lower roof brace", "roof-upper": "upper roof brace", "tie": "tie", "web": "web",
    "board": "board", "roll-pipe": "roll-up pipe",
}


def role_word(role: str) -> str:
    """What one piece of a role is called."""
    return ROLES.get(role, role.replace("-", " "))


def plural(word: str) -> str:
    """Several of it: "foot bolts", "latches"."""
    return word + ("es" if word.endswith(("s", "x", "ch", "sh")) else "s")


def counted(count: int, word: str) -> str:
    """ "1 band", "12 bands"."""
    return f"{count} {word if count == 1 else plural(word)}"


def listed(words: Sequence[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def hoops_said(numbers: Iterable[int]) -> str:
    """Hoops by their numbers: "hoop 3", "hoops 1 to 13", "hoops 2, 4, ... 18", "hoops 2, 5 and 6"."""
    hoops = sorted(set(numbers))
    if len(hoops) < 3:
        return ("hoop " if len(hoops) == 1 else "hoops ") + listed([str(hoop) for hoop in hoops])
    step = hoops[1] - hoops[0]
    if hoops == list(range(hoops[0], hoops[-1] + 1, step)):
        return f"hoops {hoops[0]} to {hoops[-1]}" if step == 1 else f"hoops {hoops[0]}, {hoops[1]}, ... {hoops[-1]}"
    return "hoops " + listed([str(hoop) for hoop in hoops])


def parts_said(family: Family, parts: Iterable[str]) -> str:
    """Parts with their counts and what they are called, in the order in which they were met: "26 hoop sections HS26-S"."""
    return listed([f"{counted(count, role_word(family.parts[part].role) or 'piece')} {part}" for part, count in Counter(parts).items()])


def bolt_said(fitting: FittingSet, parts: Sequence[Part]) -> str:
    """Which way a fitting set's bolt points and where its nut lies; "" where `parts`, its own, hold nothing that is driven."""
    driven = [part for part in parts if part.kind == "fastener" and part.role != "nut"]
    if not driven:
        return ""
    what = "bolt" if any(part.role == "bolt" for part in driven) else role_word(driven[0].role)
    if fitting.nut == "none" or not any(part.role == "nut" for part in parts):
        return f"{what} points {fitting.bolt_points}"
    return f"{what} points {fitting.bolt_points}, nut {fitting.nut}"


def joints_said(family: Family, joints: Iterable[Joint]) -> str:
    """The hardware of these joints, each kind once with its bolts: "26 foot bolts (bolt points in, nut inside)"."""
    counts = Counter(joint.fitting for joint in joints)
    said = []
    for code, count in counts.items():
        fitting = family.fittings[code]
        bolt = bolt_said(fitting, [family.parts[number] for number, _ in fitting.parts])
        said.append(counted(count, fitting.name) + (f" ({bolt})" if bolt else ""))
    return listed(said)
