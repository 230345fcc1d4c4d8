"""Bodies that nobody should send to what changes something: never a 500, nothing changed, and one sentence."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any
from uuid import uuid4

import pytest
from django.db import transaction

from tests.bad_input.asking import fell_over, signed_in, who_may
from tests.bad_input.junk import DEEP, HUGE, JUNK, asked_names, contents, counted_rows, upload
from tests.bad_input.shown_forms import Field, Form, Shown, shown_forms
from tests.factories import World
from tests.pages import words
from tests.resolver import Address, each_address

pytestmark = pytest.mark.django_db
# A refusal stands in the first, the words of an error page in the second.
SENTENCE = re.compile(r'class="(?:said )?no"|class="answer"')
DAY = "2026-03-10"


class Poster:
    """Posts to one address as one person, and holds every answer to the same rules."""

    def __init__(self, client: Any, url: str) -> None:
        self.client, self.url = client, url
        self.wrong: list[tuple[str, str]] = []
        self.rows = counted_rows()

    def post(self, body: dict[str, Any], said: str, *, keyed: bool = True) -> int:
        """Send a body. What was taken is undone again, so that each body finds the same tables."""
        whole = {**body, "request_key": str(uuid4())} if keyed else body
        mark = transaction.savepoint()
        answer = self.client.post(self.url, whole)
        status = answer.status_code
        if fallen := fell_over(answer):
            self.wrong.append((said, fallen))
        elif status >= 400:
            self._refused(answer, body, said)
        if status < 400:
            transaction.savepoint_rollback(mark)
        else:
            transaction.savepoint_commit(mark)
        return status

    def _refused(self, answer: Any, body: dict[str, Any], said: str) -> None:
        rows = counted_rows()
        if rows != self.rows:
            changed = {table: (self.rows[table], rows[table]) for table in rows if rows[table] != self.rows[table]}
            self.wrong.append((said, f"{answer.status_code} and yet rows were written: {changed}"))
            self.rows = rows
        if not SENTENCE.search(answer.content.decode()):
            self.wrong.append((said, f"{answer.status_code} without a sentence: {words(answer)[:120]}"))
        if lost := lost_words(answer, self.url, body):
            self.wrong.append((said, f"{answer.status_code} and these are no longer in the form: {lost}"))


def lost_words(answer: Any, url: str, body: dict[str, Any]) -> dict[str, Any]:
    """What was typed into fields that are shown again in the form that was sent, and stands in none of them."""
    shown = shown_forms(answer)
    lost = {}
    for name, sent in body.items():
        stands = shown.typed(url, name)
        if stands and isinstance(sent, str) and _plain(sent) not in {_plain(one) for one in stands}:
            lost[name] = (sent[:30], [one[:30] for one in stands])
    return lost


def _plain(text: str) -> str:
    """No character that a page can't hold, and no blanks at the ends, which a field may take off."""
    return text.replace("\0", "").replace("\ufffd", "").replace("\r\n", "\n").strip()


def plausible(form: Form, shown: Shown) -> dict[str, Any]:
    """What a person might send: what stands in the fields, and something that could be right in the empty ones."""
    return {one.name: _likely(one, shown) for one in form.fields if one.name and one.kind not in ("file", "submit", "button")}


def _likely(one: Field, shown: Shown) -> str:
    if one.value or one.name in ("csrfmiddlewaretoken", "request_key"):
        return one.value
    if one.choices:
        return next((choice for choice in one.choices if choice), "")
    if shown.lists.get(one.listed):
        return shown.lists[one.listed][0]
    return {"date": DAY, "number": "1", "password": "", "hidden": "", "search": "x"}.get(one.kind, "7")


def names_of(poster: Poster, form: Form | None) -> list[str]:
    """Every name that the form has or that is asked for."""
    with asked_names() as names:
        poster.post({}, "only a key")
    if form is not None:
        names |= {one.name for one in form.fields if one.name}
    return sorted(names - {"request_key", "csrfmiddlewaretoken", "next"})


def all_at_once(names: list[str], likely: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Junk in every field, other junk in each; little where nothing is read."""
    yield "nothing that is asked for", {"": "\0", "a[]": ["1", HUGE]}
    if not names:
        return
    for turn in range(0, len(JUNK), 3):
        yield f"junk {turn}", {name: JUNK[(turn + at * 7) % len(JUNK)] for at, name in enumerate(names)}
    for said, junk in (("too long", "x" * 5000), ("NUL", "a\0b"), ("huge", HUGE)):
        yield said, dict.fromkeys(names, junk)
    yield "repeated", {name: ["1", "", "x\0", HUGE] for name in names}
    yield "files for texts", {name: upload() for name in names}
    yield "texts and files under one name", {**likely, **{name: [upload("../../x.jpg", b""), "1"] for name in names}}


def one_by_one(names: list[str], likely: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """A body that might be right, and the same with one field wrong. Rows that are alike are tried once."""
    yield "as it might be", likely
    for name in {re.sub(r"\d+", "1", name): name for name in names}.values():
        for junk in DEEP:
            yield f"{name} = {junk[:30]!r}", {**likely, name: junk}
        yield f"without {name}", {other: value for other, value in likely.items() if other != name}


@each_address
def test_a_body_of_junk_is_refused_in_a_sentence_and_changes_nothing(address: Address, world: World, posted_forms):
    action, form, shown = posted_forms.get(address.name, [(address.url(world), None, Shown([], {}))])[-1]
    wrong = []
    for person in who_may(world, address):
        poster = Poster(signed_in(person), action)
        if poster.client.post(action).status_code == 405:
            continue
        before = contents()
        poster.post({}, "nothing", keyed=False)
        poster.post({"request_key": "no key"}, "a key that is none", keyed=False)
        poster.post({"request_key": ["\0", HUGE]}, "two keys that are none", keyed=False)
        names = names_of(poster, form)
        likely = plausible(form, shown) if form else dict.fromkeys(names, "7")
        for said, body in all_at_once(names, likely):
            poster.post(body, said)
        for said, body in one_by_one(names, likely) if person != world.ada else ():
            poster.post(body, said)
        wrong += [(str(person), *one) for one in poster.wrong]
        after = contents()
        wrong += [(str(person), table, "what stands there now is not what stood there") for table in after if before[table] != after[table]]
    assert not wrong, "\n".join(": ".join(one) for one in wrong)
