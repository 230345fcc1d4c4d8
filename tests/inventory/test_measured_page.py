"""The page that takes what a crew measured, and keeps it."""

import re

import pytest
from django.db import IntegrityError, transaction
from django.urls import reverse

from structures.models import Event, MeasuredBack, Structure
from tests.factories import structure
from tests.pages import keyed, queries, value_of, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def standing(ada):
    return structure(belongs_to=ada)


def page(client, tag, **typed):
    return client.get(reverse("inventory:measured-back", args=[tag]), {"read": "1", **typed} if typed else {})


def test_it_asks_for_every_run_bay_and_band_and_says_what_was_computed(client_for, ada, standing):
    said = words(page(client_for(ada), standing.tag))
    assert "Ridge purlin, in. Computed: 6-0." in said
    assert "Bay 12, hoops 12 and 13, in." in said
    assert "H3-L-foot, Side brace" in said


def test_last_sticks_are_read_in_inches_and_said_in_words(client_for, ada, standing):
    response = page(client_for(ada), standing.tag, stick_0="73", stick_1="72 1/2", stick_2="6-0")
    said = words(response)
    assert "The last stick of the ridge purlin is 6-1 and 6-0 was computed: along it hoop 13 stands 0-1 further from hoop 1" in said
    assert "out of square" in said
    assert value_of(response, "stick_1") == "72 1/2"


def test_the_drawing_of_what_won_t_meet_says_what_people_call_an_end(client_for, ada, standing):
    Structure.objects.update(tag_end_name="road end")
    said = words(page(client_for(ada), standing.tag, piece="B2-L-side:brace:1/from", way="short", gap="15/16"))
    assert "the tag end (road end)" in said


def test_a_gap_that_won_t_close_is_ranked_with_the_measurement_that_settles_it(client_for, ada, standing):
    said = words(page(client_for(ada), standing.tag, piece="B2-L-side:brace:1/from", way="short", gap="15/16"))
    assert "Stop: check the spacing, then the length. Don't drill, cut or force it." in said
    assert "Measure the clear gap between hoops 2 and 3 at this height" in said


@pytest.mark.parametrize(("piece", "view"), [
    ("B2-L-side:brace:1/from", "inside-tag-left"), ("B1-R-roof:brace:1/to", "inside-tag-right"),
    ("B12-R-side:brace:1/from", "inside-far-right"), ("H4-tie:tie:1/to", "section"),
])
def test_the_piece_is_lit_in_the_nearest_drawing_of_it(client_for, ada, standing, piece, view):
    shown = page(client_for(ada), standing.tag, piece=piece, way="short", gap="15/16").content.decode()
    place = piece.rpartition("/")[0]
    drawn = re.findall(r'<svg class="dw[^"]*".*?</svg>', shown, re.S)
    assert len(drawn) == 2                      # one for a desk, one for a phone
    assert all(f'id="{view}-' in one for one in drawn)
    for one in drawn:
        pieces = re.findall(r'<g class="pc" data-id="([^"]+)"[^>]*>(.*?)</g>', one, re.S)
        assert place in [ident for ident, _ in pieces]
        lit = [ident for ident, lines in pieces if 'class="lit' in lines]
        assert lit == [place] if view != "section" else one.count('class="lit"') == 1   # a section lays it over all its ties
    assert re.search(r"<figcaption>[^<]+ [HE]\S+ to [HE]\S+ is lit\.</figcaption>", shown)


def test_nothing_is_drawn_where_every_piece_meets(client_for, ada, standing):
    assert '<svg class="dw' not in page(client_for(ada), standing.tag, stick_0="73").content.decode()


def test_a_metric_reader_types_millimetres(client_for, ada, standing):
    ada.units = "metric"
    ada.save()
    said = words(page(client_for(ada), standing.tag, gap_1="1184", gap_2="1171 mm"))
    assert "Bay 1 is 13 mm wider than the 1171 mm between its hoops: 1184 mm was measured." in said


@pytest.mark.parametrize(("typed", "sentence"), [
    ({"stick_0": "long"}, "long is no length: 46 1/8, 3-10 1/8 or 46.125 in would do."),
    ({"gap_1": "9999999"}, "9999999 is longer than anything here: give what the tape shows."),
    ({"gap_1": "1/0"}, "1/0 is no length"),
    ({"band_1": "H3-L-foot:band:1"}, "Its measure is missing"),
    ({"piece": "B2-L-side:brace:1/from"}, "The gap is missing"),
    ({"gap": "1"}, "The piece is missing"),
    ({"piece": "B99-L-side:brace:1/from", "gap": "1"}, "Select a valid choice"),
])
def test_what_can_t_be_read_is_said_at_its_field(client_for, ada, standing, typed, sentence):
    response = page(client_for(ada), standing.tag, **typed)
    assert response.status_code == 200
    assert sentence in words(response)


def test_figures_are_kept_once_with_who_and_read_again(client_for, ada, standing):
    client, body = client_for(ada), keyed(stick_0="73", gap_1="46 1/8")
    address = reverse("inventory:measured-keep", args=[standing.tag])
    assert client.post(address, body).status_code == 302
    assert client.post(address, body).status_code == 302
    kept = MeasuredBack.objects.get()
    assert kept.figures == {"last_sticks": {"ridge": 73.0}, "gaps": {"1": 46.125}, "bands": {}}
    assert Event.objects.filter(verb="kept what was measured", about=f"structure {standing.tag}").count() == 1
    assert "Measured before" in words(page(client, standing.tag))


def test_nothing_is_not_kept_and_a_wrong_figure_changes_nothing(client_for, ada, standing):
    client, address = client_for(ada), reverse("inventory:measured-keep", args=[standing.tag])
    nothing = client.post(address, keyed())
    assert (nothing.status_code, "Nothing was measured" in words(nothing)) == (422, True)
    wrong = client.post(address, keyed(stick_0="x"))
    assert (wrong.status_code, value_of(wrong, "stick_0")) == (422, "x")
    assert not MeasuredBack.objects.exists()


def test_a_kept_measurement_never_changes(client_for, ada, standing):
    client_for(ada).post(reverse("inventory:measured-keep", args=[standing.tag]), keyed(stick_0="73"))
    with pytest.raises(IntegrityError), transaction.atomic():
        MeasuredBack.objects.update(figures={"last_sticks": {}})
    with pytest.raises(IntegrityError), transaction.atomic():
        MeasuredBack.objects.all().delete()


def test_another_grower_and_one_without_a_design_get_nothing(client_for, gil, ada, standing):
    assert page(client_for(gil), standing.tag).status_code == 404
    bare = structure("T-0999", belongs_to=ada, design=None)
    assert page(client_for(ada), bare.tag).status_code == 404


def test_queries_stay_the_same_however_much_was_kept(client_for, ada, standing):
    client, address = client_for(ada), reverse("inventory:measured-keep", args=[standing.tag])
    client.post(address, keyed(stick_0="73"))
    url = reverse("inventory:measured-back", args=[standing.tag])
    few = queries(client, url)
    for figure in ("72", "73", "74", "75"):
        client.post(address, keyed(stick_0=figure))
    assert queries(client, url) == few
