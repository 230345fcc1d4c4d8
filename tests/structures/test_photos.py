"""Taking in photos: upright, without metadata, the original untouched, and a sentence for whatever can't be taken."""

import contextlib
import hashlib
import zlib
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageFile

from structures.photos import SHOWN_PX, SMALL_PX, take_in
from structures.refusals import Refuse

# CIPA DC-008 (Exif), tag 274 Orientation: what a picture stored as rows 123/456 shows for each value.
UPRIGHT = {
    1: "123/456", 2: "321/654", 3: "654/321", 4: "456/123", 5: "14/25/36", 6: "41/52/63", 7: "63/52/41", 8: "36/25/14",
}
ORIENTATION, GPS, SERIAL, EXIF_IFD = 274, 34853, 42033, 34665
GREYS = {"1": 10, "2": 55, "3": 100, "4": 145, "5": 190, "6": 235}
SIDE = 16


def jpeg(image=None, exif=None, **save) -> bytes:
    out = BytesIO()
    (image or Image.new("RGB", (64, 48), "grey")).save(out, "JPEG", quality=95, **({"exif": exif} if exif else {}), **save)
    return out.getvalue()


def _stored_123_456() -> Image.Image:
    image = Image.new("RGB", (3 * SIDE, 2 * SIDE))
    for row, digits in enumerate(("123", "456")):
        for column, digit in enumerate(digits):
            image.paste((GREYS[digit],) * 3, (column * SIDE, row * SIDE, (column + 1) * SIDE, (row + 1) * SIDE))
    return image


def _read_digits(image: Image.Image) -> str:
    rows = []
    for y in range(SIDE // 2, image.height, SIDE):
        greys = [image.convert("L").getpixel((x, y)) for x in range(SIDE // 2, image.width, SIDE)]
        rows.append("".join(min(GREYS, key=lambda digit, grey=grey: abs(GREYS[digit] - grey)) for grey in greys))
    return "/".join(rows)


@pytest.mark.parametrize(("value", "shown"), UPRIGHT.items())
def test_a_photo_is_shown_upright_for_every_orientation(value, shown):
    exif = Image.Exif()
    exif[ORIENTATION] = value
    taken = take_in(jpeg(_stored_123_456(), exif), "p.jpg")
    assert _read_digits(Image.open(BytesIO(taken.shown))) == shown


def test_a_phones_heic_photo_is_taken_upright():
    """64 x 48, blue in its upper left quarter, orientation 6: shown turned a quarter right, blue at the upper right."""
    taken = take_in((Path(__file__).parent / "pictures" / "turned.heic").read_bytes(), "turned.heic")
    shown = Image.open(BytesIO(taken.shown)).convert("RGB")
    assert (shown.width, shown.height) == (48, 64)
    (red, _, blue), (left_red, _, left_blue) = shown.getpixel((43, 5)), shown.getpixel((5, 5))
    assert blue > 150 > red
    assert left_red > 150 > left_blue
    assert dict(Image.open(BytesIO(taken.shown)).getexif()) == {}


def test_the_shown_copy_and_the_small_one_carry_no_metadata():
    exif = Image.Exif()
    exif[ORIENTATION] = 6
    exif[GPS] = {1: "N", 2: (42.0, 22.0, 12.34)}
    exif[EXIF_IFD] = {SERIAL: "camera 77"}
    data = jpeg(exif=exif, comment=b"at the farm")
    assert dict(Image.open(BytesIO(data)).getexif())[ORIENTATION] == 6
    taken = take_in(data, "p.jpg")
    for copy in (taken.shown, taken.small):
        assert dict(Image.open(BytesIO(copy)).getexif()) == {}
        assert b"camera 77" not in copy
        assert b"at the farm" not in copy


def test_the_original_is_kept_byte_for_byte_with_its_checksum():
    data = jpeg()
    taken = take_in(data, "p.jpg")
    assert taken.original == data
    assert taken.sha256 == hashlib.sha256(data).hexdigest()


def test_a_large_photo_is_shrunk_and_a_small_one_left_at_its_size():
    large = take_in(jpeg(Image.new("RGB", (3000, 1500))), "p.jpg")
    assert (large.width_px, large.height_px) == (SHOWN_PX, SHOWN_PX // 2)
    assert Image.open(BytesIO(large.small)).size == (SMALL_PX, SMALL_PX // 2)
    little = take_in(jpeg(), "p.jpg")
    assert (little.width_px, little.height_px) == (64, 48)


@pytest.mark.parametrize(("form", "mode"), [("PNG", "RGBA"), ("PNG", "P"), ("PNG", "1"), ("PNG", "I;16"), ("WEBP", "RGB")])
def test_the_other_formats_and_modes_are_taken(form, mode):
    out = BytesIO()
    Image.new(mode, (20, 10)).save(out, form)
    assert take_in(out.getvalue(), "p").width_px == 20


def test_what_is_clear_in_a_picture_is_shown_white():
    out = BytesIO()
    Image.new("RGBA", (20, 10), (0, 0, 0, 0)).save(out, "PNG")
    assert Image.open(BytesIO(take_in(out.getvalue(), "p.png").shown)).getpixel((5, 5)) == (255, 255, 255)


def _png_header(width: int, height: int) -> bytes:
    """A PNG that claims its size and holds almost nothing."""
    def chunk(kind: bytes, body: bytes) -> bytes:
        return len(body).to_bytes(4, "big") + kind + body + zlib.crc32(kind + body).to_bytes(4, "big")

    size = width.to_bytes(4, "big") + height.to_bytes(4, "big")
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", size + b"\x08\x02\0\0\0") + chunk(b"IDAT", zlib.compress(b"\0" * 9)) + chunk(b"IEND", b"")


def _gif() -> bytes:
    out = BytesIO()
    Image.new("P", (4, 4)).save(out, "GIF")
    return out.getvalue()


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", "The photo p.jpg is empty, 0 bytes: take it again."),
        (b"%PDF-1.7\n%rest", "The file p.jpg is a PDF and no photo: JPEG, PNG, WebP or HEIC would do."),
        (b"hello", "The file p.jpg is no photo that can be read here: JPEG, PNG, WebP or HEIC would do."),
        (_gif(), "The file p.jpg is no photo that can be read here: JPEG, PNG, WebP or HEIC would do."),
        (_png_header(10_000, 7_000), "The photo p.jpg has more than 60 megapixels: take it at a smaller size."),
        (_png_header(60_000, 60_000), "The photo p.jpg has more than 60 megapixels: take it at a smaller size."),
        (b"\xff\xd8" + b"x" * 25_000_001, "The photo p.jpg has 25 megabytes: 25 at most would do."),
        (
            jpeg(Image.effect_noise((200, 200), 90).convert("RGB"))[:9000],
            "The photo p.jpg came only in part and can't be read to its end: send it once more, or take it again.",
        ),
    ],
    ids=["empty", "renamed PDF", "words", "another format", "70 megapixels", "3,600 megapixels", "too many bytes", "truncated"],
)
def test_what_cannot_be_taken_is_refused_in_one_sentence(data, sentence):
    with pytest.raises(Refuse) as refused:
        take_in(data, "p.jpg")
    assert (refused.value.sentence, refused.value.field) == (sentence, "photo")


def test_half_a_photo_is_refused_after_a_paper_was_printed_too(monkeypatch):
    # The PDF library's import does this; the test does not import it, since it may be missing on a bare machine.
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    whole = jpeg(Image.effect_noise((400, 300), 80).convert("RGB"))
    with pytest.raises(Refuse, match="came only in part"):
        take_in(whole[: len(whole) // 2], "half.jpg")


def test_a_photo_of_exactly_60_megapixels_is_not_too_large():
    with pytest.raises(Refuse) as refused:
        take_in(_png_header(10_000, 6_000), "p.png")
    assert "came only in part" in refused.value.sentence


@given(st.binary(max_size=60), st.integers(min_value=0, max_value=600))
@settings(max_examples=150, deadline=None)
def test_any_damage_to_a_photo_is_refused_or_taken_and_never_anything_else(noise, at):
    data = jpeg()
    damaged = data[:at] + noise + data[at + len(noise):]
    with contextlib.suppress(Refuse):
        assert Image.open(BytesIO(take_in(damaged, "p.jpg").shown)).size


@pytest.mark.parametrize(
    ("name", "called"), [("../../etc/p.jpg", "p.jpg"), ("C:\\x\\p.jpg", "p.jpg"), ("\0\n", "without a name"), ("", "without a name")]
)
def test_a_file_name_is_said_without_path_or_unprintable_characters(name, called):
    assert take_in(jpeg(), name).name == called
