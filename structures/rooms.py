"""The rooms named in the strip, and the news on everybody's own first page.

Each app adds its own in `AppConfig.ready`, so that the lowest app need not know what lies above it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from structures.models import User


@dataclass(frozen=True, slots=True)
class Room:
    """`url_name` is where it is, `words` what the strip calls it, `about` one line for the first page."""

    url_name: str
    words: str
    about: str
    roles: frozenset[str]
    order: int
    first_for: frozenset[str]


@dataclass(frozen=True, slots=True)
class News:
    """One sentence that leads to its page. `late` sentences stand first, in red."""

    sentence: str
    url: str
    late: bool = False


_ROOMS: dict[str, Room] = {}
_NEWS: list[tuple[frozenset[str], Callable[[User], Iterable[News]]]] = []


def add_room(
    url_name: str, words: str, about: str, *, roles: Iterable[str], order: int, first_for: Iterable[str] = ()
) -> None:
    """Name a room in the strip for these roles; owners have every room except what is only a grower's.

    `first_for` are the roles that come here when they sign in, in place of the page that lists their rooms.
    """
    names = frozenset(roles)
    if names != {"grower"}:
        names |= {"owner"}
    _ROOMS[url_name] = Room(url_name, words, about, names, order, frozenset(first_for))


def add_news(tell: Callable[[User], Iterable[News]], *, roles: Iterable[str]) -> None:
    """`tell(user)` is asked for sentences on the first page of these roles. It may query, in a fixed number."""
    _NEWS.append((frozenset(roles), tell))


def rooms_of(user: User) -> list[Room]:
    """The rooms of this person's role, in order."""
    return sorted((room for room in _ROOMS.values() if user.role in room.roles), key=lambda room: room.order)


def first_room(user: User) -> Room | None:
    """Where this person comes to when they sign in, None for the page that lists their rooms."""
    return next((room for room in rooms_of(user) if user.role in room.first_for), None)


def news_for(user: User) -> list[News]:
    """What this person's first page says, late sentences first."""
    found = [news for roles, tell in _NEWS if user.role in roles for news in tell(user)]
    return sorted(found, key=lambda news: not news.late)
