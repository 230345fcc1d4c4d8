"""The list of structures, one structure, what differs on it and who belongs to it."""

import re
from datetime import date

import pytest
from django.db import IntegrityError, transaction
from django.urls import reverse

from structures.actions.structures import change_structure
from structures.models import AsBuiltChange, Belonging, Event, Structure
from structures.refusals import Refuse
from tests.factories import structure
from tests.pages import keyed, queries, value_of, words

pytestmark = pytest.mark.django_db
LIST = "structures:structure-list"


def page(name: str, tag: str = "T-0412", **more) -> str:
    return reverse(f"structures:{name}", kwargs={"tag": tag, **more})


@pytest.fixture
def mine(ada):
    return structure(belongs_to=ada)


@pytest.fixture
def bare(ada):
    """A structure known from nothing but its tag."""
    return structure("T-0007", belongs_to=ada, design=None, finished_on=None, order_number="", unchecked=True)


@pytest.mark.parametrize("who", ["sue", "olive"])
def test_the_staff_see_every_structure(who, request, mine, bare, client_for):
    said = words(client_for(request.getfixturevalue(who)).get(reverse(LIST)))
    assert "2 structures." in said
    assert "T-0412 Long field Quillmere G26, revision D 1207 2 May 2024 from its order" in said
    assert "T-0007 Long field Quillmere unknown unknown day unknown from paper, not checked" in said


@pytest.mark.parametrize(
    ("query", "count"),
    [({"named": "0412"}, 1), ({"town": "quill"}, 2), ({"family": "g26"}, 1), ({"stands": "no"}, 0), ({"stands": "paper"}, 1),
     ({"stands": "yes"}, 1), ({"stands": "perhaps"}, 0)],
)
def test_the_list_narrows(query, count, sue, mine, bare, client_for):
    said = words(client_for(sue).get(reverse(LIST), query))
    assert {0: "No structures.", 1: "1 structure.", 2: "2 structures."}[count] in said


def test_the_list_takes_the_same_queries_at_one_row_and_at_three(sue, mine, client_for):
    client = client_for(sue)
    one = queries(client, reverse(LIST))
    for tag in ("T-2", "T-3"):
        structure(tag)
    assert queries(client, reverse(LIST)) == one


@pytest.mark.parametrize("who", ["sue", "olive", "ada"])
def test_a_structure_says_what_it_is_and_whose(who, request, mine, client_for):
    said = words(client_for(request.getfixturevalue(who)).get(page("structure-detail")))
    assert "T-0412 stands, Quillmere; it came with order 1207." in said
    assert "12 bays of 4-0" in said
    assert "Nothing that differs was noted." in said
    assert ("Let somebody see it" in said) is (who != "ada")


def test_from_paper_is_said_and_an_unknown_frame_is_unknown(sue, bare, client_for):
    said = words(client_for(sue).get(page("structure-detail", "T-0007")))
    assert "From paper, not checked. Nobody said yet when T-0007 was finished" in said
    assert "still in parcels" not in said
    assert "Family unknown Length unknown Hoops unknown" in said
    assert client_for(sue).get(page("structure-made-of", "T-0007")).status_code == 404


def test_what_was_shipped_and_not_finished_is_in_parcels(sue, client_for):
    structure("T-0008", finished_on=None)
    assert "T-0008 is still in parcels" in words(client_for(sue).get(page("structure-detail", "T-0008")))
    assert "1 structure." in words(client_for(sue).get(reverse(LIST), {"stands": "no"}))
    assert "still in parcels" in words(client_for(sue).get(reverse(LIST)))


def test_the_staff_go_straight_to_its_answer_and_a_grower_is_led_nowhere_else(sue, ada, mine, client_for):
    answer = reverse("inventory:order-answer", args=["1207"])
    assert answer in client_for(sue).get(page("structure-detail")).content.decode()
    assert answer not in client_for(ada).get(page("structure-detail")).content.decode()


@pytest.mark.parametrize("name", ["structure-detail", "structure-made-of", "structure-why"])
def test_a_stranger_gets_nothing_and_the_warehouse_no_entry(name, gil, wes, mine, client_for):
    assert client_for(gil).get(page(name)).status_code == 404
    assert client_for(wes).get(page(name)).status_code == 403
    assert client_for(None).get(page(name)).status_code == 302


def test_what_it_is_made_of_comes_from_the_frozen_design(ada, mine, client_for):
    said = words(client_for(ada).get(page("structure-made-of")))
    assert "Structure T-0412, as it was shipped" in said
    assert "Roof braces yes 8 pieces, 16 bands" in said
    assert "Snow pack no Offered, not bought." in said
    assert "Tube and posts weigh 1,266 lb" in said
    assert "ridge 5 of 10-6 6-0 swaged end 4-6" in said
    assert "Brace band" in said
    why = words(client_for(ada).get(page("structure-why")))
    assert "56 = 56 needed" in why


@pytest.mark.parametrize("who", ["wes", "sue", "olive"])
def test_a_design_page_for_the_staff(who, request, mine, client_for):
    client = client_for(request.getfixturevalue(who))
    assert "as it was frozen" in words(client.get(reverse("structures:design-detail", args=[mine.design.pk])))
    assert client.get(reverse("structures:design-why", args=[mine.design.pk])).status_code == 200
    assert client.get(reverse("structures:design-detail", args=[0])).status_code == 404


def differs(**changed) -> dict:
    return keyed(**{"act": "moved", "place": "H4-tie", "words": "moved 1 ft up to clear the sprayer", "seen_on": "2024-06-01", **changed})


@pytest.mark.parametrize("who", ["ada", "sue", "olive"])
def test_whoever_belongs_to_it_notes_what_differs(who, request, mine, client_for):
    user = request.getfixturevalue(who)
    answer = client_for(user).post(page("structure-differs"), differs(), follow=True)
    assert "H4-tie moved moved 1 ft up to clear the sprayer" in words(answer)
    kept = AsBuiltChange.objects.get()
    assert (kept.place, kept.act, kept.noted_by, kept.seen_on) == ("H4-tie", "moved", user, date(2024, 6, 1))
    event = Event.objects.get(verb="noted as built")
    assert (event.about, event.after["place"]) == ("structure T-0412", "H4-tie")


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"place": "by the door"}, "by the door is no place code: like H3-R-foot or B2-L-side would do."),
        ({"place": "H40-tie"}, "H40-tie is past the end: this structure has 13 hoops."),
        ({"place": "B13-R-side"}, "B13-R-side is past the end: this structure has 12 bays."),
        ({"place": "H0-tie"}, "H0-tie is past the end: this structure has 13 hoops."),
        ({"seen_on": "2999-01-01"}, "01 January 2999 is still to come: give the day on which it was seen."),
        ({"words": ""}, "This field is required."),
        ({"act": "sold"}, "Select a valid choice. sold is not one of the available choices."),
    ],
)
def test_what_cannot_be_noted_is_refused_and_kept_in_the_form(changed, sentence, ada, mine, client_for):
    answer = client_for(ada).post(page("structure-differs"), differs(**changed))
    assert answer.status_code == 422
    assert sentence in words(answer)
    assert value_of(answer, "place") == changed.get("place", "H4-tie")
    assert not AsBuiltChange.objects.exists()


def test_the_same_key_notes_once(ada, mine, client_for):
    body, client = differs(), client_for(ada)
    assert [client.post(page("structure-differs"), body).status_code for _ in range(2)] == [302, 302]
    assert AsBuiltChange.objects.count() == 1


@pytest.mark.parametrize(("who", "status"), [("gil", 404), ("wes", 403), (None, 302)])
def test_nobody_else_notes_anything(who, status, request, mine, client_for):
    user = request.getfixturevalue(who) if who else None
    assert client_for(user).post(page("structure-differs"), differs()).status_code == status
    assert not AsBuiltChange.objects.exists()


@pytest.mark.parametrize("name", ["structure-differs", "structure-keep", "structure-belongs"])
def test_acts_take_a_post(name, olive, mine, client_for):
    assert client_for(olive).get(page(name)).status_code == 405


def test_the_staff_let_a_grower_see_it_and_end_it_again(sue, gil, mine, client_for):
    client, his = client_for(sue), client_for(gil)
    assert his.get(page("structure-detail")).status_code == 404
    client.post(page("structure-belongs"), keyed(person="GIL", since="2025-01-01"))
    assert his.get(page("structure-detail")).status_code == 200
    belonging = Belonging.objects.get(user=gil)
    client.post(page("belonging-end", pk=belonging.pk), keyed(until="2025-06-01"))
    assert his.get(page("structure-detail")).status_code == 404
    assert [event.verb for event in Event.objects.filter(about="structure T-0412")] == ["ended belonging", "let belong"]


@pytest.mark.parametrize(
    ("sent", "sentence"),
    [
        ({"person": "nobody", "since": "2025-01-01"}, "Nobody signs in as nobody: the owner lets people in first."),
        ({"person": "sue", "since": "2025-01-01"}, "sue is support and sees every structure already."),
        ({"person": "gil", "since": "soon"}, "Enter a valid date."),
    ],
)
def test_who_cannot_belong_is_refused(sent, sentence, sue, gil, mine, client_for):
    answer = client_for(sue).post(page("structure-belongs"), keyed(**sent))
    assert answer.status_code == 422
    assert sentence in words(answer)
    assert value_of(answer, "person") == sent["person"]
    assert Belonging.objects.count() == 1


@pytest.mark.parametrize(
    ("until", "sentence"),
    [("2020-01-01", "ada belongs to T-0412 since 2024-05-02, and 2020-01-01 is before that: give that day or a later one."),
     ("", "The last day is missing or is no day: give it like 2026-04-30.")],
)
def test_an_end_that_cannot_be(until, sentence, sue, mine, client_for):
    answer = client_for(sue).post(page("belonging-end", pk=mine.belongings.get().pk), keyed(until=until))
    assert answer.status_code == 422
    assert sentence in words(answer)
    assert mine.belongings.get().until is None


def test_a_belonging_of_another_structure_is_not_ended_here(sue, gil, mine, client_for):
    other = structure("T-2", belongs_to=gil, design=None)
    answer = client_for(sue).post(page("belonging-end", pk=other.belongings.get().pk), keyed(until="2025-01-01"))
    assert answer.status_code == 404


def test_a_grower_lets_nobody_in(ada, mine, client_for):
    for name in ("structure-belongs", "structure-keep"):
        assert client_for(ada).post(page(name), keyed(person="gil", since="2025-01-01")).status_code == 404


def test_the_staff_put_the_facts_right(sue, mine, client_for):
    body = keyed(name="Road field", town="Netherfold", place="behind the barn", finished_on="2024-05-03", zone="Europe/London")
    answer = client_for(sue).post(page("structure-keep"), body, follow=True)
    assert "Kept what is known about T-0412." in words(answer)
    said = words(answer)
    assert "sue changed; finished on: 2 May 2024, now 3 May 2024; name: Long field, now Road field; place: behind the barn; " in said
    assert "town: Quillmere, now Netherfold; zone: America/New_York, now Europe/London" in said
    event = Event.objects.get(verb="changed")
    assert (event.before["town"], event.after["town"], event.after["finished_on"]) == ("Quillmere", "Netherfold", "2024-05-03")


def test_a_kept_text_that_only_looks_like_a_day_is_said_as_it_is(sue, mine, client_for):
    body = {"name": "2024-02-31", "town": "", "place": "2024-05-01", "finished_on": "2024-05-02", "zone": "UTC"}
    client_for(sue).post(page("structure-keep"), keyed(**body))
    said = words(client_for(sue).get(page("structure-detail")))
    assert "name: Long field, now 2024-02-31; place: 1 May 2024;" in said


@pytest.mark.parametrize(("day", "kept"), [("2024-04-21", False), ("2024-04-22", True), ("2024-04-23", True), ("", True)])
def test_it_is_not_finished_before_the_day_on_which_it_left(day, kept, sue, mine, client_for):
    Structure.objects.update(left_on=date(2024, 4, 22))
    body = keyed(name="Road field", town="", place="", finished_on=day, zone="UTC")
    answer = client_for(sue).post(page("structure-keep"), body)
    mine.refresh_from_db()
    assert (answer.status_code, mine.name) == ((302, "Road field") if kept else (422, "Long field"))
    if not kept:
        assert (
            "T-0412 can't be finished on 21 April 2024: it left here on 22 April 2024. That day or a later one would do, "
            "or none while the day is unknown."
        ) in words(answer)
        assert (value_of(answer, "finished_on"), value_of(answer, "name")) == ("2024-04-21", "Road field")


def test_the_action_and_the_database_refuse_a_finishing_day_before_it_left(sue, mine):
    Structure.objects.update(left_on=date(2024, 4, 22))
    values = {"name": "Road field", "town": "", "place": "", "finished_on": date(2024, 4, 21), "zone": "UTC"}
    with pytest.raises(Refuse, match=r"T-0412 can't be finished on 21 April 2024: it left here on 22 April 2024\."):
        change_structure(mine, values, by=sue)
    with pytest.raises(IntegrityError, match="structure_finished_after_it_left"), transaction.atomic():
        Structure.objects.update(finished_on=date(2024, 4, 21))


def test_the_page_says_when_it_left(sue, mine, client_for):
    assert "it came with order 1207. " in words(client_for(sue).get(page("structure-detail")))
    Structure.objects.update(left_on=date(2024, 4, 22))
    assert "it came with order 1207, which left on 22 Apr 2024." in words(client_for(sue).get(page("structure-detail")))


def test_a_place_with_no_such_time_is_refused(sue, mine, client_for):
    body = keyed(name="Road field", town="", place="", finished_on="", zone="Mars/Olympus")
    answer = client_for(sue).post(page("structure-keep"), body)
    assert answer.status_code == 422
    assert "Mars/Olympus is no time zone: a name like America/New_York or UTC would do." in words(answer)
    assert value_of(answer, "name") == "Road field"


def test_a_page_takes_the_same_queries_with_one_change_and_with_three(ada, mine, client_for):
    client = client_for(ada)
    client.post(page("structure-differs"), differs())
    client.get(page("structure-detail"))  # shows the message, which the next one does not
    one = queries(client, page("structure-detail"))
    for _ in range(2):
        client.post(page("structure-differs"), differs())
    client.get(page("structure-detail"))
    assert queries(client, page("structure-detail")) == one


@pytest.mark.parametrize("who", ["sue", "olive", "ada"])
def test_whoever_sees_it_names_its_ends_and_an_event_says_who(who, request, mine, client_for):
    client = client_for(request.getfixturevalue(who))
    assert "Nothing but tag end and far end." in words(client.get(page("structure-detail")))
    answer = client.post(page("structure-ends"), keyed(tag_end_name="  road \t end ", far_end_name=""), follow=True)
    assert "Kept what the ends of T-0412 are called." in words(answer)
    assert "The tag end, where hoop 1 stands, is called road end. Its drawings" in words(answer)
    client.post(page("structure-ends"), keyed(tag_end_name="road end", far_end_name="Field end"))
    mine.refresh_from_db()
    assert mine.end_names == {1: "road end", 2: "Field end"}
    first, last = Event.objects.filter(verb="named the ends").order_by("id")
    assert (first.who.username, first.before, first.after) == (
        who, {"tag_end_name": "", "far_end_name": ""}, {"tag_end_name": "road end", "far_end_name": ""})
    assert last.after["far_end_name"] == "Field end"
    client.post(page("structure-ends"), keyed(tag_end_name="road end", far_end_name="Field end"))
    assert Event.objects.filter(verb="named the ends").count() == 2


@pytest.mark.parametrize(("tag_end", "far_end", "sentence"), [
    ("road end", "Road  End", "Both ends would be called Road End: give one of them another name, or none."),
    ("Far end", "", "Far end is what every structure has: give the name that people use there, or none."),
    ("", "tag end", "tag end is what every structure has: give the name that people use there, or none."),
    ("x" * 41, "", "at most 40 characters"),
])
def test_a_name_of_an_end_that_would_lead_astray_is_refused(tag_end, far_end, sentence, ada, mine, client_for):
    answer = client_for(ada).post(page("structure-ends"), keyed(tag_end_name=tag_end, far_end_name=far_end))
    assert answer.status_code == 422
    assert sentence in words(answer)
    assert value_of(answer, "tag_end_name") == tag_end
    mine.refresh_from_db()
    assert mine.end_names == {}


def test_a_stranger_names_no_end(gil, wes, mine, client_for):
    for person, status in ((gil, 404), (wes, 403)):
        assert client_for(person).post(page("structure-ends"), keyed(tag_end_name="road end", far_end_name="")).status_code == status
    mine.refresh_from_db()
    assert mine.end_names == {}


def test_signs_that_cannot_be_drawn_are_left_out_of_a_name(ada, mine, client_for):
    """A drawing in a PDF is read as XML, which knows no control characters."""
    client_for(ada).post(page("structure-ends"), keyed(tag_end_name="road\x0bend\x1b", far_end_name="b & <i>c</i>"))
    mine.refresh_from_db()
    assert mine.end_names == {1: "road end", 2: "b & <i>c</i>"}


@pytest.mark.parametrize("name", ["structure-drawings", "structure-made-of"])
def test_drawings_of_a_structure_say_what_its_ends_are_called(name, ada, mine, client_for):
    plain = client_for(ada).get(page(name)).content.decode()
    Structure.objects.update(tag_end_name="road end", far_end_name="by <b>& barn")
    shown = client_for(ada).get(page(name)).content.decode()
    assert ">tag end</text>" in plain
    assert "road end" not in plain
    assert ">road end</text>" in shown
    assert "<b>& barn" not in shown
    assert "outside the tag end (road end)" in shown
    assert [code for code in re.findall(r"data-id=\"([^\"]+)", plain)] == [code for code in re.findall(r"data-id=\"([^\"]+)", shown)]


def test_where_one_stands_at_a_corner_is_said_with_the_names_of_both_ends(ada, mine, client_for):
    Structure.objects.update(tag_end_name="road end", far_end_name="field end")
    said = words(client_for(ada).get(page("structure-drawings"), {"view": "inside-tag-left"}))
    assert "facing the left corner of the tag end (road end)" in said
    said = words(client_for(ada).get(page("structure-drawings"), {"standing": "outside far end"}))
    assert "You stand outside the far end (field end), looking in" in said
