"""The owner's list of people, letting somebody in, and changing what they are."""

import pytest
from django.urls import reverse

from structures.models import Event, User
from tests.pages import keyed, queries, value_of, words

pytestmark = pytest.mark.django_db
LIST, NEW, LET_IN = "structures:person-list", "structures:person-new", "structures:person-let-in"


def account(**changed) -> dict:
    return keyed(**{
        "first_name": "Runa", "last_name": "Holt", "username": "runa", "email": "runa@hoops.example", "role": "support",
        "units": "us", "is_active": "on", "password": "a long spoken word", **changed,
    })


def test_the_owner_sees_everybody(olive, wes, client_for):
    said = words(client_for(olive).get(reverse(LIST)))
    assert "2 people." in said
    assert "wes" in said


def test_the_list_narrows_by_name_and_role(olive, wes, sue, client_for):
    client = client_for(olive)
    assert "1 person." in words(client.get(reverse(LIST), {"named": "WES"}))
    assert "1 person." in words(client.get(reverse(LIST), {"role": "support"}))
    assert "Nobody fits these words: take one away." in words(client.get(reverse(LIST), {"named": "nobody at all"}))


def test_a_filter_that_cannot_be_read_shows_nothing_and_says_so(olive, wes, client_for):
    said = words(client_for(olive).get(reverse(LIST), {"role": "guest"}))
    assert "No people." in said
    assert "guest is not one of the available choices." in said


def test_the_list_takes_the_same_queries_at_one_row_and_at_three(olive, person, client_for):
    client = client_for(olive)
    one = queries(client, reverse(LIST))
    person("wes", "warehouse")
    person("ada", "grower")
    assert queries(client, reverse(LIST)) == one


def test_the_owner_lets_somebody_in_who_can_then_sign_in(olive, client_for, client):
    answer = client_for(olive).post(reverse(LET_IN), account(), follow=True)
    assert "Runa Holt can sign in as runa." in words(answer)
    person = User.objects.get(username="runa")
    assert (person.role, person.units) == ("support", "us")
    event = Event.objects.get(verb="let in")
    assert (event.about, event.who, event.after["role"]) == ("person runa", olive, "support")
    assert "a long spoken word" not in str(event.after)
    assert client.post(reverse("structures:sign-in"), {"username": "runa", "password": "a long spoken word"}).status_code == 302


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"username": ""}, "A name to sign in with is missing: give one, like ada."),
        ({"username": "olive"}, "Somebody signs in with this name already: choose another."),
        ({"password": ""}, "A first password is missing: give one of at least 10 characters."),
        ({"password": "short"},
         "This password is short, common, or too like the name: at least 10 characters that are no common word would do."),
        ({"role": "king"}, "Select a valid choice. king is not one of the available choices."),
    ],
)
def test_what_cannot_be_is_refused_and_what_was_typed_is_kept(changed, sentence, olive, client_for):
    answer = client_for(olive).post(reverse(LET_IN), account(**changed))
    assert answer.status_code == 422
    assert sentence in words(answer)
    assert value_of(answer, "last_name") == "Holt"
    assert User.objects.count() == 1


def test_the_same_key_lets_in_once(olive, client_for):
    body, client = account(), client_for(olive)
    assert [client.post(reverse(LET_IN), body).status_code for _ in range(2)] == [302, 302]
    assert Event.objects.filter(verb="let in").count() == 1


@pytest.mark.parametrize("name", [LIST, NEW])
@pytest.mark.parametrize(("who", "status"), [("sue", 403), ("wes", 403), ("ada", 404), (None, 302)])
def test_these_pages_are_the_owners(name, who, status, request, client_for):
    user = request.getfixturevalue(who) if who else None
    assert client_for(user).get(reverse(name)).status_code == status
    assert client_for(user).post(reverse(LET_IN), account()).status_code == status
    assert not User.objects.filter(username="runa").exists()


def test_wrong_method(olive, client_for):
    client = client_for(olive)
    assert client.get(reverse(LET_IN)).status_code == 405
    assert client.post(reverse(LIST)).status_code == 405


def keep_url(person) -> str:
    return reverse("structures:person-keep", args=[person.username])


def test_the_owner_changes_a_role_and_both_values_are_kept(olive, sue, client_for):
    answer = client_for(olive).post(keep_url(sue), account(username="sue", role="warehouse", password=""), follow=True)
    assert "Kept: Runa Holt, warehouse." in words(answer)
    sue.refresh_from_db()
    assert sue.role == "warehouse"
    assert sue.check_password("a long spoken word")
    event = Event.objects.get(verb="changed")
    assert (event.before["role"], event.after["role"]) == ("support", "warehouse")


def test_somebody_switched_off_can_no_longer_sign_in(olive, sue, client_for, client):
    client_for(olive).post(keep_url(sue), {k: v for k, v in account(username="sue", password="").items() if k != "is_active"})
    answer = client.post(reverse("structures:sign-in"), {"username": "sue", "password": "a long spoken word"})
    assert "This name and password do not fit together." in words(answer)


@pytest.mark.parametrize("changed", [{"role": "support"}, {"is_active": ""}])
def test_the_last_owner_stays_an_owner(changed, olive, client_for):
    answer = client_for(olive).post(keep_url(olive), account(username="olive", password="", **{"role": "owner", **changed}))
    assert answer.status_code == 422
    assert "Runa Holt is the only owner who can sign in: make somebody else an owner first." in words(answer)
    olive.refresh_from_db()
    assert (olive.role, olive.is_active) == ("owner", True)


def test_a_person_who_is_not_there(olive, client_for):
    assert client_for(olive).get(reverse("structures:person-change", args=["nobody"])).status_code == 404
    assert client_for(olive).post(reverse("structures:person-keep", args=["nobody"]), keyed()).status_code == 404


@pytest.mark.parametrize("who", ["wes", "sue", "ada", "olive"])
def test_everybody_chooses_their_own_units_and_password(who, request, client_for):
    person = request.getfixturevalue(who)
    client = client_for(person)
    assert client.get(reverse("structures:own-settings")).status_code == 200
    body = keyed(units="metric", old_password="a long spoken word", new_password="another long spoken word")
    answer = client.post(reverse("structures:own-settings-keep"), body, follow=True)
    assert "Your settings are kept." in words(answer)
    person.refresh_from_db()
    assert person.units == "metric"
    assert person.check_password("another long spoken word")


@pytest.mark.parametrize(
    ("sent", "sentence"),
    [
        ({"old_password": "wrong", "new_password": "another long spoken word"},
         "This is not the password you sign in with now, so it was not changed."),
        ({"old_password": "a long spoken word", "new_password": "short"}, "This password is short, common, or too like the name"),
    ],
)
def test_a_password_that_cannot_be_is_refused(sent, sentence, sue, client_for):
    answer = client_for(sue).post(reverse("structures:own-settings-keep"), keyed(units="metric", **sent))
    assert answer.status_code == 422
    assert sentence in words(answer)
    sue.refresh_from_db()
    assert sue.units == "us"
    assert sue.check_password("a long spoken word")


def test_own_settings_need_somebody_signed_in(client):
    assert client.get(reverse("structures:own-settings")).status_code == 302
    assert client.get(reverse("structures:own-settings-keep")).status_code == 302
