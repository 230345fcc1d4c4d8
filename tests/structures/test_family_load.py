"""Loading a family file: the action, and the owner's page for it."""

import hashlib
from datetime import date

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from structures.actions.families import load_family
from structures.frame.refusal import Refused
from structures.models import Event, FamilyRevision
from structures.queries.families import revision_by_value, revisions, years_words
from structures.refusals import Refuse
from tests.factories import design, family_revision, family_text
from tests.pages import keyed, value_of, words

pytestmark = pytest.mark.django_db
LOAD = "structures:family-load"


def test_a_file_becomes_a_revision_with_its_hash_and_an_event(olive):
    text = family_text("G26", "D")
    kept = load_family(text, source="g26-d.toml", by=olive)
    assert (kept.code, kept.revision, kept.sha256) == ("G26", "D", hashlib.sha256(text.encode()).hexdigest())
    event = Event.objects.get()
    assert (event.verb, event.about, event.who) == ("loaded", "family G26-D", olive)


def test_the_same_text_again_changes_nothing(olive):
    first = family_revision("G26", "D")
    again = load_family(family_text("G26", "D"), source="other-name.toml", by=olive)
    assert again == first
    assert Event.objects.count() == 1


def test_another_text_takes_the_place_of_one_that_nothing_was_made_from(olive):
    first = family_revision("G26", "D")
    again = load_family(family_text("G26", "D") + "\n# one more line\n", source="g26-d.toml", by=olive)
    assert again.pk == first.pk
    assert again.text.endswith("# one more line\n")
    assert FamilyRevision.objects.count() == 1


def test_a_revision_that_was_sold_stays_as_it_was(olive):
    made = design("G26", "D")
    with pytest.raises(Refuse) as refused:
        load_family(family_text("G26", "D") + "\n# other\n", source="g26-d.toml", by=olive)
    assert refused.value.sentence == (
        "G26 revision D was sold already, so its file can't change: give this file the next revision and its own effective date."
    )
    made.family.refresh_from_db()
    assert made.family.text == family_text("G26", "D")


def test_a_part_that_two_files_define_differently_is_refused_naming_both(olive):
    family_revision("G26", "D")
    clashing = family_text("G20", "B").replace("Purlin stick", "Purlin pole")
    with pytest.raises(Refused) as refused:
        load_family(clashing, source="mine.toml", by=olive)
    said = str(refused.value)
    assert "PS131-106" in said
    assert "g26-d.toml" in said
    assert "mine.toml" in said
    assert FamilyRevision.objects.count() == 1


def test_every_demo_file_stands_beside_every_other():
    for code, revision in (("R14", "A"), ("G20", "A"), ("G20", "B"), ("G26", "A"), ("G26", "D"), ("G30", "B")):
        family_revision(code, revision)
    assert FamilyRevision.objects.count() == 6


def test_years_come_from_the_next_revision():
    for letter in "ACD":
        family_revision("G26", letter)
    said = {one.revision: years_words(one.effective, one.until) for one in revisions()}
    assert said == {"A": "as made 2016 to 2019", "C": "as made 2019 to 2021", "D": "as made since 2021"}
    assert [one.revision for one in revisions().filter(revision="A") if one.until.year == 2019] == ["A"]
    assert years_words(date(2021, 3, 1), date(2021, 9, 1)) == "as made in 2021"


def test_a_revision_by_its_value_in_an_address():
    family_revision("G26", "A")
    latest = family_revision("G26", "D")
    assert revision_by_value("G26-A").revision == "A"
    assert revision_by_value("G26") == latest
    assert revision_by_value("G26-Z") is None


def test_the_owner_loads_a_pasted_file(olive, client_for):
    answer = client_for(olive).post(reverse(LOAD), keyed(text=family_text()), follow=True)
    assert answer.redirect_chain == [(reverse("structures:family-detail", args=["G26", "D"]), 302)]
    assert "G26 revision D is loaded." in words(answer)


def test_the_owner_loads_an_uploaded_file(olive, client_for):
    file = SimpleUploadedFile("my-family.toml", family_text().encode())
    assert client_for(olive).post(reverse(LOAD), keyed(file=file)).status_code == 302
    assert FamilyRevision.objects.get().source == "my-family.toml"


def test_all_that_is_wrong_is_listed_and_the_text_is_kept(olive, client_for):
    text = family_text().replace('revision = "D"', 'revison = "D"').replace("[hoop]", "[hop]")
    answer = client_for(olive).post(reverse(LOAD), keyed(file=SimpleUploadedFile("mine.toml", text.encode())))
    assert answer.status_code == 422
    said = words(answer)
    assert "Nothing was loaded." in said
    assert "revison" in said
    assert "hop" in said
    assert value_of(answer, "text").strip() == text.strip()
    assert not FamilyRevision.objects.exists()


@pytest.mark.parametrize(
    ("sent", "sentence"),
    [
        ({}, "There is no file and no text: choose a family file, or paste what stands in one."),
        ({"text": "   "}, "There is no file and no text: choose a family file, or paste what stands in one."),
        ({"file": ("a.toml", b"\xff\xfe\x00\x00")}, "a.toml is no plain text in UTF-8: save it as a .toml text file first."),
        ({"file": ("b.toml", b"x" * 600_000)}, "b.toml has 600,000 bytes: a family file is plain text of 524,288 at most."),
        ({"file": ("empty.toml", b"")}, "Nothing was loaded."),
        ({"text": "not = = toml"}, "Nothing was loaded."),
        ({"text": "\x00"}, "Null characters are not allowed."),
    ],
)
def test_what_is_no_family_file_is_refused(sent, sentence, olive, client_for):
    body = {name: SimpleUploadedFile(*value) if name == "file" else value for name, value in sent.items()}
    answer = client_for(olive).post(reverse(LOAD), keyed(**body))
    assert answer.status_code == 422
    assert sentence in words(answer)
    assert not FamilyRevision.objects.exists()


@pytest.mark.parametrize(("who", "status"), [("sue", 403), ("wes", 403), ("ada", 404)])
def test_nobody_else_loads_a_file(who, status, request, client_for):
    assert client_for(request.getfixturevalue(who)).post(reverse(LOAD), keyed(text=family_text())).status_code == status


def test_a_stranger_is_sent_to_sign_in_and_a_get_is_no_way_to_load(olive, client_for):
    assert client_for(None).post(reverse(LOAD)).headers["Location"].startswith(reverse("structures:sign-in"))
    assert client_for(olive).get(reverse(LOAD)).status_code == 405


def test_the_same_key_loads_once(olive, client_for):
    body = keyed(text=family_text())
    client = client_for(olive)
    first, again = client.post(reverse(LOAD), body), client.post(reverse(LOAD), body)
    assert first.headers["Location"] == again.headers["Location"]
    assert Event.objects.count() == 1
