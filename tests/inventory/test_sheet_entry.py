"""The printed pick: the whole of it on paper, entered once as "all as printed, except"."""

import hashlib
from io import BytesIO
from uuid import uuid4

import pytest
from django.urls import reverse
from pypdf import PdfReader

from inventory.actions.orders import change_order, specs_of
from inventory.actions.pick_sheets import Differs, SheetRefused, enter_sheet, print_sheet
from inventory.actions.picking import record_pick
from inventory.models import PickEntry, PickSheet, StoredPaper
from structures.refusals import Refuse
from tests.inventory.selling import a_confirmed, a_structure, pick_all, stock, stock_for
from tests.pages import value_of, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def order(sue, wes):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    return order


@pytest.fixture
def sheet(order, wes):
    return print_sheet(order.pick, by=wes)


def n_of(sheet, part):
    return next(line["n"] for line in sheet.lines if line["part"] == part)


def picked(order):
    return {line.part.number: line.picked for line in order.pick.lines.select_related("part")}


def enter(client, sheet, key=None, **data):
    url = reverse("inventory:sheet-enter", args=[sheet.pick.number, sheet.number])
    return client.post(url, {"request_key": str(key or uuid4()), "rows": "3", "picked_by": "Piet Aldous", **data})


def test_the_paper_carries_every_line_in_bin_order(sheet, order):
    text = "\n".join(page.extract_text() for page in PdfReader(BytesIO(bytes(sheet.paper.content))).pages)
    assert f"Pick {sheet.label}" in text
    for line in sheet.lines:
        assert line["part"] in text
    assert [line["bin"] for line in sheet.lines] == sorted(line["bin"] for line in sheet.lines)
    assert {line["part"]: line["count"] for line in sheet.lines} == {
        line.part.number: line.to_pick for line in order.pick.lines.select_related("part")
    }


def test_order_and_page_stand_on_every_page(sheet, order):
    pages = PdfReader(BytesIO(bytes(sheet.paper.content))).pages
    for n, page in enumerate(pages, 1):
        text = page.extract_text()
        assert f"page {n} of {len(pages)}" in text
        assert f"Sheet {sheet.label}, order {order.label} for Ada Quill" in text


def test_the_pdf_library_has_nothing_to_complain_of(order, wes, caplog):
    with caplog.at_level("WARNING", logger="weasyprint"):
        print_sheet(order.pick, by=wes)
    assert [record.message for record in caplog.records if record.name.startswith("weasyprint")] == []


def test_it_is_printed_from_the_pick_and_kept(client_for, order, wes):
    done = client_for(wes).post(reverse("inventory:pick-print", args=[order.pick.number]), {"request_key": str(uuid4())})
    paper = StoredPaper.objects.get(kind="pick sheet")
    assert done.headers["Location"] == reverse("inventory:paper-file", args=[paper.pk])
    served = client_for(wes).get(done.headers["Location"])
    assert hashlib.sha256(served.content).hexdigest() == paper.sha256 == PickSheet.objects.get().paper.sha256


@pytest.mark.parametrize("who", ["wes", "olive"])
def test_all_as_printed_fills_every_line(who, client_for, sheet, order, request):
    assert enter(client_for(request.getfixturevalue(who)), sheet).status_code == 302
    assert all(line.picked == line.to_pick for line in order.pick.lines.all())
    assert set(PickEntry.objects.values_list("how", flat=True)) == {"sheet"}
    sheet.refresh_from_db()
    assert (sheet.picked_by, sheet.entered) == ("Piet Aldous", [])


def test_what_differs_is_taken_as_written(client_for, sheet, order, wes):
    stock("BT516-2", 200, by=wes, bin="E-07", lot="B-9", walk=500)
    braces, bolts = n_of(sheet, "SB26"), n_of(sheet, "BT516-2")
    done = enter(
        client_for(wes), sheet, n_0=str(braces), taken_0="6", why_0="bin empty, line stays open", n_1=str(bolts), taken_1="66",
        lot_1="unknown", why_1="label torn off",
    )
    assert done.status_code == 302
    assert (picked(order)["SB26"], picked(order)["BT516-2"]) == (6, 66)
    lines = {line.part.number: line for line in order.pick.lines.select_related("part")}
    assert lines["SB26"].is_short
    assert {entry.lot for entry in lines["BT516-2"].entries.all()} == {"unknown"}
    sheet.refresh_from_db()
    assert [(row["n"], row["taken"], row["why"]) for row in sheet.entered] == sorted(
        [(braces, 6, "bin empty, line stays open"), (bolts, 66, "label torn off")]
    )


def test_more_than_printed_is_refused_and_nothing_is_entered(client_for, sheet, order, wes):
    number = n_of(sheet, "BC190")
    page = enter(client_for(wes), sheet, n_0=str(number), taken_0="65", lot_0="P-001", why_0="another lot")
    assert page.status_code == 422
    assert "65 is 9 more than the sheet asks. 56 would do." in words(page)
    assert (value_of(page, "n_0"), value_of(page, "taken_0"), value_of(page, "lot_0")) == (str(number), "65", "P-001")
    assert not PickEntry.objects.exists()
    sheet.refresh_from_db()
    assert sheet.entered_at is None


@pytest.mark.parametrize(("row", "sentence"), [
    ({"n_0": "99", "taken_0": "1"}, "Line 99 is not on this sheet: it has lines 1 to 20."),
    ({"taken_0": "1"}, "No line was named beside what was taken: write its number, this sheet has lines 1 to 20."),
    ({"n_0": "1", "taken_0": "few"}, "few is no count: write how many were taken, 0 when none."),
    ({"n_0": "1"}, "Nothing is no count: write how many were taken, 0 when none."),
    ({"n_0": "1", "taken_0": "1", "lot_0": "C#1"}, "Lot 'C#1' has other signs than letters"),
    ({"n_0": "1", "taken_0": "1", "why_0": "no reason"}, "Say why with one of the words in the list."),
    ({"n_0": "1", "taken_0": "1"}, "1 is fewer than the 56 printed: say why."),
    ({"n_0": "1", "taken_0": "56", "n_1": "1", "taken_1": "56"}, "Line 1 stands here twice: keep one of them."),
])
def test_what_can_t_be_read_is_one_sentence(row, sentence, client_for, sheet, wes):
    page = enter(client_for(wes), sheet, **row)
    assert page.status_code == 422
    assert sentence in words(page)
    assert not PickEntry.objects.exists()


def test_a_line_that_a_phone_took_already_is_refused_with_its_name(client_for, sheet, order, wes, olive):
    line = order.pick.lines.get(part__number="SB26")
    record_pick(line, 3, key=uuid4(), by=olive)
    page = enter(client_for(wes), sheet)
    assert page.status_code == 422
    number = n_of(sheet, "SB26")
    assert "3 of 8 are taken, the last 3 by olive at" in words(page)
    assert (value_of(page, "n_3"), value_of(page, "taken_3")) == (str(number), "8")
    assert picked(order)["SB26"] == 3
    why = "taken on a phone already"
    assert enter(client_for(wes), sheet, n_0=str(number), taken_0="5", why_0=why).status_code == 302
    assert picked(order)["SB26"] == 8


def test_a_second_entry_says_when_and_by_whom(client_for, sheet, wes, olive):
    enter(client_for(wes), sheet)
    page = enter(client_for(olive), sheet)
    assert page.status_code == 422
    assert "by wes. A sheet is entered once." in words(page)
    with pytest.raises(Refuse, match=r"was entered on .* by wes, all as printed: a sheet is entered once\."):
        enter_sheet(sheet, {}, picked_by="", key=uuid4(), by=olive)


def test_sent_twice_it_is_entered_once(client_for, sheet, order, wes):
    client, key = client_for(wes), uuid4()
    assert [enter(client, sheet, key).status_code for _ in range(2)] == [302, 302]
    assert PickEntry.objects.count() == order.pick.lines.count()


def test_another_row_is_given_on_asking(client_for, sheet, wes):
    page = enter(client_for(wes), sheet, more="1", n_0="7", taken_0="4")
    assert page.status_code == 200
    assert (value_of(page, "rows"), value_of(page, "n_0"), value_of(page, "taken_0")) == ("4", "7", "4")
    assert not PickEntry.objects.exists()


def test_a_change_after_printing_shows_what_goes_back(client_for, sue, wes):
    order = a_confirmed(a_structure(with_=("snow-ties",)), by=sue)
    stock_for(order, by=wes)
    sheet = print_sheet(order.pick, by=wes)
    pick_all(order, by=wes)
    spec, = specs_of(order.version)
    change_order(order, [a_structure(spec.family_revision)], by=sue, why="snow pack taken off")
    page = client_for(wes).get(reverse("inventory:sheet-entry", args=[order.pick.number, sheet.number]))
    assert "To put back" in words(page)


def test_nothing_left_is_not_printed(order, wes):
    pick_all(order, by=wes)
    with pytest.raises(Refuse, match=r"Every line of pick \d+ is taken: there is nothing to print\."):
        print_sheet(order.pick, by=wes)


def test_a_strange_line_is_refused_by_the_action_too(sheet, wes):
    with pytest.raises(SheetRefused) as refused:
        enter_sheet(sheet, {99: Differs(1)}, picked_by="", key=uuid4(), by=wes)
    assert refused.value.by_line == {99: "Line 99 is not on this sheet: it has 1 to 20."}


def test_roles(client_for, sheet, sue, ada):
    assert [enter(client_for(who), sheet).status_code for who in (sue, ada, None)] == [403, 404, 302]
    assert not PickEntry.objects.exists()
