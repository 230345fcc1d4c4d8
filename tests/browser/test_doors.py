"""Coming in, being refused, and the door where nothing stands."""

import pytest


def test_signing_in_by_the_form_leads_to_what_was_asked_for(visitor_for, ada):
    visitor = visitor_for(None)
    visitor.goto("/me/")
    visitor.page.get_by_label("Name").fill("ada")
    visitor.page.get_by_label("Password").fill("a long spoken word")
    visitor.press("Sign in")
    assert visitor.page.url == visitor.address + "/me/"


def test_a_wrong_password_keeps_the_name(visitor_for, ada):
    visitor = visitor_for(None)
    visitor.goto("/sign-in/")
    visitor.page.get_by_label("Name").fill("ada")
    visitor.page.get_by_label("Password").fill("a wrong word")
    visitor.press("Sign in")
    assert visitor.page.get_by_label("Name").input_value() == "ada"


@pytest.mark.parametrize("role", ["wes", "sue", "ada", "olive"])
def test_everybody_has_a_first_page(visitor_for, request, role):
    visitor = visitor_for(request.getfixturevalue(role))
    visitor.goto("/")


def test_where_nothing_stands_the_door_says_so(visitor_for, ada):
    visitor = visitor_for(ada)
    visitor.goto("/structures/T-9999/", status=404)


def test_what_belongs_to_others_on_the_staff_is_refused(visitor_for, wes):
    visitor = visitor_for(wes)
    visitor.goto("/people/", status=403)
