"""Reading the forms of a page: where each one goes, and what stands in its fields."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

# What a person types is shown in these; a password is never shown again, and a choice that is none can't be.
TYPED = {"text", "search", "tel", "email", "number", "date", "textarea"}


@dataclass
class Field:
    """One field of a form. `value` is what stands in it, `choices` what could."""

    name: str
    kind: str
    value: str = ""
    choices: list[str] = field(default_factory=list)
    listed: str = ""


@dataclass
class Form:
    """One form of a page; a field that stands in it twice is there twice."""

    action: str
    method: str
    fields: list[Field] = field(default_factory=list)

    def named(self, name: str) -> list[Field]:
        return [one for one in self.fields if one.name == name]


class _Reader(HTMLParser):
    """Walks a page once. `loose` takes fields that stand outside of every form."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.forms: list[Form] = []
        self.loose = Form("", "get")
        self.lists: dict[str, list[str]] = {}
        self.links: list[str] = []
        self._form: Form | None = None
        self._field: Field | None = None
        self._list = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given: dict[str, Any] = {name: "" if value is None else value for name, value in attrs}
        if tag == "form":
            self._form = Form(given.get("action", ""), given.get("method", "get").lower())
            self.forms.append(self._form)
        elif tag == "input":
            self._input(given)
        elif tag in ("select", "textarea"):
            self._field = Field(given.get("name", ""), tag)
            self._into().fields.append(self._field)
        elif tag == "datalist":
            self._list = given.get("id", "")
            self.lists[self._list] = []
        elif tag == "option":
            self._option(given)
        elif tag == "a":
            self.links.append(given.get("href", ""))

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self._form = None
        elif tag in ("select", "textarea"):
            if tag == "textarea" and self._field:
                # A browser leaves out the first new line of a text area.
                self._field.value = self._field.value.removeprefix("\r").removeprefix("\n")
            self._field = None
        elif tag == "datalist":
            self._list = ""

    def handle_data(self, data: str) -> None:
        if self._field is not None and self._field.kind == "textarea":
            self._field.value += data

    def _into(self) -> Form:
        return self._form or self.loose

    def _input(self, given: dict[str, Any]) -> None:
        name, kind, value = given.get("name", ""), given.get("type", "text"), given.get("value", "")
        if kind not in ("radio", "checkbox"):
            self._into().fields.append(Field(name, kind, value, listed=given.get("list", "")))
            return
        there = self._into().named(name)
        one = there[0] if there else Field(name, kind)
        if not there:
            self._into().fields.append(one)
        one.choices.append(value)
        if "checked" in given:
            one.value = value

    def _option(self, given: dict[str, Any]) -> None:
        value = given.get("value", "")
        if self._list:
            self.lists[self._list].append(value)
        elif self._field is not None and self._field.kind == "select":
            self._field.choices.append(value)
            if "selected" in given:
                self._field.value = value


@dataclass
class Shown:
    """The forms of one page, the lists that its fields offer, and where its links lead."""

    forms: list[Form]
    lists: dict[str, list[str]]
    links: list[str] = field(default_factory=list)

    def typed(self, action: str, name: str) -> list[str]:
        """What stands in the fields of this name that a person types into, in the forms that lead to this address."""
        return [one.value for form in self.forms if form.action == action for one in form.named(name) if one.kind in TYPED]


def shown_forms(response: Any) -> Shown:
    """Every form of a page, in its order; nothing for what is no HTML."""
    if not response.headers.get("Content-Type", "").startswith("text/html"):
        return Shown([], {})
    reader = _Reader()
    reader.feed(response.content.decode())
    return Shown(reader.forms, reader.lists, reader.links)
