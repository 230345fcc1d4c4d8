"""The page of size and options."""

import re
from html import unescape

import pytest
from django.urls import reverse

from structures.actions.families import load_family
from tests.factories import family_revision, family_text
from tests.pages import value_of, words

pytestmark = pytest.mark.django_db
PAGE = "structures:size"


@pytest.fixture
def g26(db):
    family_revision("G26", "A")
    return family_revision("G26", "D")


@pytest.fixture
def choose_as(client_for):
    def get(user, **query):
        return client_for(user).get(reverse(PAGE), query)

    return get


def follow(client, response, **changed):
    """Send the form of a page again with something changed, as pressing its button does."""
    html = response.content.decode()
    sent = {name: value_of(response, name) for name in ("length", "spacing", "base", "chosen", "last", "before")}
    sent["family"] = re.search(r'<option value="([^"]+)" selected', html)[1]
    for end in ("tag_end", "far_end"):
        sent[end] = re.search(rf'name="{end}" value="([^"]+)" checked', html)[1]
    sent["option"] = re.findall(r'name="option" value="([^"]+)" checked', html)
    return client.get(reverse(PAGE), {**sent, **changed})


def boxes(response) -> list[str]:
    return re.findall(r'name="option" value="([^"]+)" checked', response.content.decode())


@pytest.mark.parametrize("who", ["sue", "olive"])
def test_it_shows_size_hoops_and_kit(who, request, g26, choose_as):
    page = choose_as(request.getfixturevalue(who), family="G26-D", length="48-0")
    assert page.status_code == 200
    said = words(page)
    assert "13 hoops, 12 bays of 4-0" in said
    assert "Band clamp 1.90 BC190 count" not in said
    assert "Tube and posts weigh 1,266 lb" in said
    assert "Roof braces standard, 8 pieces, 16 bands" in said
    assert "Snow pack Offered, not bought: would add 5 pieces, 10 bands." in said
    assert "Mid-length side braces Not made for this size: G30 has it, over 72 ft." in said
    html = page.content.decode()
    assert html.count('<svg class="dw') == 8  # four views, each drawn wide and narrow


@pytest.mark.parametrize("view", ["frame", "section", "unrolled", "inside-tag-right"])
@pytest.mark.parametrize("family", ["G26", "R14"])
def test_the_picture_beside_the_choices_is_one_of_four_views(family, view, sue, client_for):
    family_revision(family, "D" if family == "G26" else "A")
    page = client_for(sue).get(reverse(PAGE), {"view": view})
    beside = page.content.decode().partition('class="answering"')[2].partition('id="kit"')[0]
    assert f'aria-labelledby="{view}-desk-t' in beside
    assert re.findall(r'name="view" form="choices" id="view-[a-z-]+" value="([a-z-]+)"( checked)?', beside) == [
        (code, " checked" if code == view else "") for code in ("frame", "section", "unrolled", "inside-tag-right")
    ]


@pytest.mark.parametrize("junk", ["", "side-left", "<b>", "9" * 500])
def test_a_view_that_is_not_offered_there_shows_the_frame(junk, sue, g26, choose_as):
    assert 'aria-labelledby="frame-desk-t' in choose_as(sue, view=junk).content.decode()


def test_the_view_stays_while_choices_change_and_what_is_lit_is_lit_in_it(sue, g26, client_for):
    client = client_for(sue)
    first = client.get(reverse(PAGE), {"family": "G26-D", "length": "48-0", "chosen": "1", "option": ["side-braces", "ties"]})
    second = follow(client, first, option=["side-braces", "ties", "roof-braces"], view="unrolled")
    html = second.content.decode()
    beside = html.partition('class="answering"')[2].partition('id="kit"')[0]
    assert 'aria-labelledby="unrolled-desk-t' in beside
    assert 'class="lit"' in beside
    assert "What was chosen last is lit: B roof brace, lower, left twist" in words(second)
    undo = unescape(re.search(r'href="([^"]+)">Undo the last', html)[1])
    assert 'aria-labelledby="unrolled-desk-t' in client.get(reverse(PAGE) + undo).content.decode()


def test_nothing_typed_takes_the_first_family_and_its_standard_options(sue, g26, choose_as):
    page = choose_as(sue)
    assert boxes(page) == ["side-braces", "roof-braces", "ties", "channel"]
    assert value_of(page, "length") == "24-0"


def test_what_was_chosen_last_is_said_counted_and_lit(sue, g26, client_for):
    client = client_for(sue)
    first = client.get(reverse(PAGE), {"family": "G26-D", "length": "48-0", "chosen": "1", "option": ["side-braces", "ties"]})
    second = follow(client, first, option=["side-braces", "ties", "roof-braces"])
    said = words(second)
    assert "Roof braces add 8 pieces, 16 bands" in said
    assert "Part Count Roof braces add Made up of" in said
    assert "What was chosen last is lit: B roof brace, lower, left twist, 26 ft; C roof brace, lower, right twist, 26 ft; " in said
    html = second.content.decode()
    assert html.count('class="lit"') or html.count("lit")
    row = next(row for row in re.findall(r"<tr class=\"is-lit\">.*?</tr>", html, re.S) if "BC190" in row)
    assert re.sub(r"<[^>]+>", " ", row).split()[:6] == ["Band", "clamp", "1.90", "BC190", "56", "16"]


def test_leaving_an_option_out_is_said_too(sue, g26, client_for):
    client = client_for(sue)
    first = client.get(reverse(PAGE), {"family": "G26-D", "length": "48-0"})
    second = follow(client, first, option=["side-braces", "ties", "channel"])
    assert "Roof braces left out: 8 pieces, 16 bands fewer" in words(second)
    assert "Roof braces Offered, not bought: would add 8 pieces, 16 bands." in words(second)


def test_a_new_length_is_said_in_pieces(sue, g26, client_for):
    client = client_for(sue)
    second = follow(client, client.get(reverse(PAGE), {"family": "G26-D", "length": "48-0"}), length="52-0")
    assert "Length 52-0: 5 pieces more" in words(second)


def test_undo_leads_back_to_what_stood_before(sue, g26, client_for):
    client = client_for(sue)
    first = client.get(reverse(PAGE), {"family": "G26-D", "length": "48-0"})
    assert "Undo the last" not in words(first)
    second = follow(client, first, length="72-0")
    undo = unescape(re.search(r'<a class="do" href="([^"]+)">Undo the last', second.content.decode())[1])
    assert value_of(client.get(reverse(PAGE) + undo), "length") == "48-0"


REFUSED = [
    ({"length": "50-0"}, "Length 50-0 is no whole number of 4-0 bays: 48-0 or 52-0 would do. Till then the drawing stays at 48-0."),
    ({"spacing": "6-0"},
     "Spacing 6-0 is not made in G26 revision D: 4-0 would do. 6-0 was revision A, as made since 2016. "
     "Till then the drawing stays at 4-0."),
    ({"length": "48"}, "48 is no length: write it like 48-0, 48ft or 14630 mm."),
    ({"length": "8-0"}, "Length 8-0 is not made in G26: from 24-0 to 300-0 would do."),
    ({"base": "skid"}, "Base 'skid' is not made in G26: fixed or rolling would do."),
    ({"tag_end": "glass"}, "End wall 'glass' is not made in G26: open or framed or door would do."),
    ({"option": ["mid-braces"]}, "Mid-length side braces can't be had on this G26: "),
]


@pytest.mark.parametrize(("changed", "sentence"), REFUSED, ids=[next(iter(changed)) + str(i) for i, (changed, _) in enumerate(REFUSED)])
def test_a_choice_that_cannot_be_is_explained_and_the_drawing_stays(changed, sentence, sue, client_for):
    family_revision("G26", "A")
    family_revision("G26", "D")
    client = client_for(sue)
    if "spacing" in changed:
        sentence = sentence.replace("as made since 2016", "as made 2016 to 2021")
    stood = client.get(reverse(PAGE), {"family": "G26-D", "length": "48-0"})
    refused = follow(client, stood, **changed)
    assert sentence in words(refused)
    assert "The drawing stays at the last choices that can be: 48-0 long, hoops 4-0 apart." in words(refused)
    assert "13 hoops, 12 bays of 4-0" in words(refused)
    for name in ("length", "spacing"):
        assert value_of(refused, name) == changed.get(name, {"length": "48-0", "spacing": "4-0"}[name])


def test_an_unknown_family_is_refused_with_those_there_are(sue, g26, choose_as):
    assert "Family Z99 is not known here: there is G26-D." in words(choose_as(sue, family="Z99"))


@pytest.mark.parametrize(
    "query",
    [
        {"last": "x" * 5000}, {"last": "family=Z9"}, {"before": "length=%00"}, {"length": "9" * 400 + "ft"},
        {"option": ["x"] * 200, "chosen": "1"},
        {"family": "G26-D' or 1=1"}, {"length": "-48ft"}, {"spacing": "0 in"}, {"length": "1/0 in"}, {"tag_end": "\x7f"},
    ],
)
def test_a_garbled_address_gives_a_page(query, sue, g26, choose_as):
    assert choose_as(sue, **query).status_code == 200


def test_another_family_brings_its_own_standard(sue, client_for):
    family_revision("G26", "D")
    family_revision("R14", "A")
    client = client_for(sue)
    stood = client.get(reverse(PAGE), {"family": "G26-D", "length": "40-0"})
    moved = follow(client, stood, family="R14-A")
    assert value_of(moved, "spacing") == "5-0"
    said = words(moved)
    assert "9 hoops, 8 bays of 5-0" in said
    assert "its nearest is" not in said
    assert "is lit" not in said    # no piece of one family is a piece of the other
    assert "fewer" not in said


def test_another_family_without_this_length_takes_its_nearest_and_says_so(sue, client_for):
    family_revision("G26", "D")
    family_revision("R14", "A")
    client = client_for(sue)
    stood = client.get(reverse(PAGE), {"family": "G26-D", "length": "48-0"})
    moved = follow(client, stood, family="R14-A")
    assert (value_of(moved, "length"), value_of(moved, "spacing")) == ("50-0", "5-0")
    assert "R14 has no length of 48-0: its nearest is 50-0." in words(moved)
    far = follow(client, client.get(reverse(PAGE), {"family": "G26-D", "length": "200-0"}), family="R14-A")
    assert "R14 has no length of 200-0: its nearest is 100-0." in words(far)
    typed = follow(client, stood, family="R14-A", length="about fifty")
    assert "about fifty is no length" in words(typed)


def test_the_only_end_wall_is_a_sentence_and_no_choice(sue, client_for):
    text = family_text("G26", "D").replace('ends = ["framed", "framed"]', 'ends = ["open", "open"]')
    load_family(re.sub(r"\[end_walls\.(framed|door|door\.door)\]\n(?:\w.*\n)+", "", text), source="g26-d.toml", by=None)
    page = client_for(sue).get(reverse(PAGE), {"family": "G26-D"})
    assert words(page).count("Open; G26 is made with no other.") == 2
    assert (value_of(page, "tag_end"), value_of(page, "far_end")) == ("open", "open")


def test_lengths_in_millimetres_for_who_reads_them(sue, g26, client_for):
    sue.units = "metric"
    sue.save()
    client = client_for(sue)
    page = client.get(reverse(PAGE), {"family": "G26-D", "length": "14630 mm", "spacing": "1219 mm"})
    assert "13 hoops, 12 bays of 1219 mm" in words(page)
    assert value_of(page, "length") == "14630 mm"
    assert "is no whole number of 1219 mm bays" in words(follow(client, page, length="15000 mm"))


def test_no_family_yet(olive, sue, choose_as):
    assert "Load a family file" in words(choose_as(olive))
    assert "The owner loads family files." in words(choose_as(sue))


def test_without_script_there_is_a_button_and_nothing_inline(sue, g26, choose_as):
    html = choose_as(sue).content.decode()
    assert "Show these</button>" in html
    assert not re.search(r"\sstyle=|\son[a-z]+=|<script>", html)


def test_keeping_leads_to_a_draft_order_with_the_choices(sue, g26, client_for):
    answer = client_for(sue).get(reverse("structures:size-keep"), {"family": "G26-D", "length": "48ft"})
    assert answer.status_code == 302
    path, query = answer.headers["Location"].split("?")
    assert path == reverse("inventory:order-new")
    assert query.startswith("family=G26-D&length=48-0&spacing=4-0&base=fixed&tag_end=framed&far_end=framed&chosen=1&option=channel&")


def test_keeping_what_cannot_be_goes_back_to_its_sentence(sue, g26, client_for):
    client = client_for(sue)
    answer = client.get(reverse("structures:size-keep"), {"family": "G26-D", "length": "50-0"}, follow=True)
    assert answer.redirect_chain == [(f"{reverse(PAGE)}?family=G26-D&length=50-0", 302)]
    assert "Length 50-0 is no whole number of 4-0 bays" in words(answer)


def test_why_each_count_names_every_place(sue, g26, client_for):
    page = client_for(sue).get(reverse("structures:size-why"), {"family": "G26-D", "length": "48-0"})
    said = words(page)
    assert "56 = 56 needed" in said
    assert "H2-R-mid" in said
    assert "260 needed + 8 spare + 32 to fill packs" in said


def test_wrong_method(sue, client_for):
    assert client_for(sue).post(reverse(PAGE)).status_code == 405


def test_a_page_takes_the_same_few_queries_at_one_family_and_at_three(sue, client_for, django_assert_max_num_queries):
    from tests.pages import queries

    family_revision("G26", "D")
    client = client_for(sue)
    one = queries(client, reverse(PAGE) + "?family=G26-D")
    family_revision("R14", "A")
    family_revision("G20", "B")
    assert queries(client, reverse(PAGE) + "?family=G26-D") == one


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"order": "1214", "line": "2"}, "For order 1214, line 2 Size"), ({"order": "1214"}, "For order 1214, one structure more Size"),
        ({"order": "1214", "line": "x"}, "For order 1214, one structure more Size"), ({"order": "../x"}, "What would be sold Size"),
        ({"order": "1" * 13}, "What would be sold Size"), ({"line": "2"}, "What would be sold Size"), ({}, "What would be sold Size"),
    ],
)
def test_it_names_the_order_that_it_is_chosen_for(asked, says, g26, sue, client_for):
    assert says in words(client_for(sue).get(reverse(PAGE), asked))


def test_every_way_on_keeps_the_order(g26, sue, client_for):
    client, asked = client_for(sue), {"family": "G26-D", "length": "48-0", "order": "1214", "line": "2"}
    first = client.get(reverse(PAGE), {**asked, "last": "family=G26-D&length=72-0"}).content.decode()
    for way in ("Undo the last", "Why each count"):
        link = re.search(rf'<a[^>]*href="([^"]*)"[^>]*>{way}', first)
        assert link, way
        assert unescape(link[1]).endswith("&order=1214&line=2"), way
    back = client.get(reverse("structures:size-why"), asked).content.decode()
    assert "&amp;order=1214&amp;line=2" in back
    kept = client.get(reverse("structures:size-keep"), asked)
    assert kept.headers["Location"].endswith("&order=1214&line=2")
