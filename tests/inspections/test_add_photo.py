"""Photos: kept as they came, shown upright, served through one door."""

from hashlib import sha256
from io import BytesIO
from uuid import uuid4

import pytest
from django.urls import reverse
from PIL import Image

from inspections.actions.observations import add_photo
from inspections.models import Photo
from structures.models import Event
from structures.refusals import Conflict, Refuse
from tests.inspections import walking
from tests.inspections.walking import FOOT, picture, upload
from tests.pages import keyed, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def visit(ada):
    return walking.under_way(walking.structure(ada), ada)


@pytest.fixture
def photo(visit, ada):
    return add_photo(visit, picture(), "leg.jpg", by=ada, device_at=walking.NOON, place=FOOT)


def test_the_original_is_kept_with_its_checksum_beside_two_copies(photo, ada):
    data = picture()
    assert photo.original.read() == data
    assert (photo.sha256, photo.name, photo.who, photo.device_at) == (sha256(data).hexdigest(), "leg.jpg", ada, walking.NOON)
    assert Image.open(BytesIO(photo.shown.read())).size == (60, 80)
    assert "leg" not in photo.original.name
    assert Event.objects.get(verb="photo").after == {"of": "H3-R-foot", "sha256": photo.sha256}
    for file in (photo.original, photo.shown, photo.small):
        file.close()


def test_the_same_id_again_is_the_same_photo_and_with_other_bytes_a_conflict(visit, ada):
    key = uuid4()
    for _ in range(2):
        add_photo(visit, picture(), "p.jpg", by=ada, device_at=None, corner="tag left", photo_id=key)
    assert Photo.objects.count() == 1
    with pytest.raises(Conflict):
        add_photo(visit, picture("red"), "p.jpg", by=ada, device_at=None, corner="tag left", photo_id=key)


@pytest.mark.parametrize(
    ("where", "sentence"),
    [
        ({}, "A photo is of one place or of one corner (tag right, far right, far left, tag left): say which."),
        (
            {"place": FOOT, "corner": "tag left"},
            "A photo is of one place or of one corner (tag right, far right, far left, tag left): say which.",
        ),
        ({"corner": "north"}, "A photo is of one place or of one corner (tag right, far right, far left, tag left): say which."),
        ({"place": "H99-R-foot:band:1"}, "H99-R-foot:band:1 is no place of T-0412: choose one from the list."),
    ],
)
def test_a_photo_of_nothing_known_is_refused(visit, ada, where, sentence):
    with pytest.raises(Refuse) as refused:
        add_photo(visit, picture(), "p.jpg", by=ada, device_at=None, **where)
    assert refused.value.sentence == sentence
    assert not Photo.objects.exists()


def test_no_photo_is_kept_before_the_walk_begins(ada, olive):
    visit = walking.due_visit(walking.structure(ada), olive)
    with pytest.raises(Refuse, match="was not begun: start the walk first"):
        add_photo(visit, picture(), "p.jpg", by=ada, device_at=None, corner="tag left")


BAD = {
    "empty": (b"", "The photo p.jpg is empty, 0 bytes: take it again."),
    "PDF": (b"%PDF-1.7", "The file p.jpg is a PDF and no photo: JPEG, PNG, WebP or HEIC would do."),
    "words": (b"hello", "The file p.jpg is no photo that can be read here: JPEG, PNG, WebP or HEIC would do."),
    "truncated": (
        picture(size=(400, 400))[:900],
        "The photo p.jpg came only in part and can't be read to its end: send it once more, or take it again.",
    ),
}


@pytest.mark.parametrize(("data", "sentence"), BAD.values(), ids=BAD)
def test_a_bad_photo_of_a_place_changes_nothing_and_keeps_what_was_typed(visit, ada, client_for, data, sentence):
    url = reverse("inspections:walk-keep", kwargs={"pk": visit.pk, "stretch": "B2-R"})
    said = {"place": FOOT, "state": "fault", "fault_class": "mend", "what": "lifted-end", "note": "by hand"}
    response = client_for(ada).post(url, keyed(**said, photo=upload(data, "p.jpg")))
    assert response.status_code == 422
    assert sentence in words(response)
    assert 'value="by hand"' in response.content.decode()
    assert (visit.observations.count(), visit.photos.count()) == (0, 0)


@pytest.mark.parametrize(("data", "sentence"), BAD.values(), ids=BAD)
def test_a_bad_photo_of_a_corner_changes_nothing(visit, ada, client_for, data, sentence):
    url = reverse("inspections:corner-keep", kwargs={"pk": visit.pk})
    response = client_for(ada).post(url, keyed(corner="far left", photo=upload(data, "p.jpg")))
    assert response.status_code == 422
    assert sentence in words(response)
    assert visit.photos.count() == 0


def test_seventy_megapixels_are_refused_in_a_sentence(visit, ada, client_for):
    out = BytesIO()
    Image.new("1", (10_000, 7_000)).save(out, "PNG")
    url = reverse("inspections:corner-keep", kwargs={"pk": visit.pk})
    response = client_for(ada).post(url, keyed(corner="far left", photo=upload(out.getvalue(), "p.png")))
    assert response.status_code == 422
    assert "The photo p.png has more than 60 megapixels: take it at a smaller size." in words(response)


def test_a_corner_photo_is_kept_and_the_page_shows_last_times_beside(visit, ada, client_for):
    client = client_for(ada)
    url = reverse("inspections:corner-keep", kwargs={"pk": visit.pk})
    assert client.post(url, keyed(corner="far left", photo=upload())).status_code == 302
    assert "3 " in words(client.get(reverse("inspections:visit-walk", kwargs={"pk": visit.pk})))
    later = walking.under_way(visit.structure, ada)
    page = client.get(reverse("inspections:visit-corners", kwargs={"pk": later.pk}))
    assert reverse("inspections:photo-small", kwargs={"pk": visit.photos.get().pk}) in page.content.decode()
    assert words(page).count("no photo yet") == 4


def test_an_unknown_corner_or_no_file_is_refused_in_a_sentence(visit, ada, client_for):
    url = reverse("inspections:corner-keep", kwargs={"pk": visit.pk})
    page = client_for(ada).post(url, keyed(corner="north", photo=upload()))
    assert "“north” is no corner: tag right, far right, far left, tag left would do." in words(page)
    page = client_for(ada).post(url, keyed(corner="far left"))
    assert (page.status_code, "No photo was chosen: take one, or choose one from the phone." in words(page)) == (422, True)


def test_the_original_leaves_only_as_an_attachment_of_no_type(photo, ada, client_for):
    response = client_for(ada).get(reverse("inspections:photo-original", kwargs={"pk": photo.pk}))
    assert response.content == picture()
    assert response.headers["Content-Type"] == "application/octet-stream"
    assert response.headers["Content-Disposition"] == f'attachment; filename="T-0412-{photo.pk}-original"'
    assert response.headers["X-Content-Type-Options"] == "nosniff"


@pytest.mark.parametrize("which", ["photo-shown", "photo-small"])
def test_the_copies_are_shown_as_what_they_are(photo, ada, sue, client_for, which):
    for person in (ada, sue):
        response = client_for(person).get(reverse(f"inspections:{which}", kwargs={"pk": photo.pk}))
        assert (response.status_code, response.headers["Content-Type"]) == (200, "image/jpeg")
        assert "Content-Disposition" not in response.headers
        assert response.headers["Cache-Control"].startswith("private")


@pytest.mark.parametrize("which", ["photo-shown", "photo-small", "photo-original"])
def test_a_stranger_gets_no_photo(photo, gil, client_for, which):
    assert client_for(gil).get(reverse(f"inspections:{which}", kwargs={"pk": photo.pk})).status_code == 404
