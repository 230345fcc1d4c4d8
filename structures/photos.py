"""Taking in a photo: the original bytes with their SHA-256, an upright copy without metadata, and a small one.

Nothing is written here. What can't be taken is refused in one sentence, before anything else happens.
"""

from __future__ import annotations

import hashlib
import struct
import warnings
from dataclasses import dataclass
from io import BytesIO

import pi_heif
from PIL import Image, ImageFile, ImageOps

from structures.refusals import Refuse

MOST_MEGABYTES = 25
MOST_MEGAPIXELS = 60
SHOWN_PX = 2048
SMALL_PX = 480
# Everything else that the decoder knows stays shut: each format is a parser that a stranger's file could reach.
FORMATS = ("JPEG", "PNG", "WEBP", "HEIF")
WOULD_DO = "JPEG, PNG, WebP or HEIC would do"

pi_heif.register_heif_opener()
Image.MAX_IMAGE_PIXELS = MOST_MEGAPIXELS * 1_000_000
# By itself the decoder only warns of a picture too large to unpack and unpacks it all the same.
warnings.filterwarnings("error", category=Image.DecompressionBombWarning)

_BROKEN = (
    OSError, SyntaxError, ValueError, EOFError, struct.error, IndexError, KeyError, TypeError, OverflowError, ZeroDivisionError,
)


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo taken in. `shown` and `small` are upright JPEGs; sizes are those of `shown`, in pixels."""

    original: bytes
    sha256: str
    name: str
    shown: bytes
    small: bytes
    width_px: int
    height_px: int


def take_in(data: bytes, name: str) -> Photo:
    """Read one upload. Raises `Refuse`, at the field "photo", with what was wrong, what was given and what would do."""
    called = _called(name)
    if not data:
        raise _no(f"The photo {called} is empty, 0 bytes: take it again.")
    if len(data) > MOST_MEGABYTES * 1_000_000:
        size = len(data) / 1_000_000
        raise _no(f"The photo {called} has {size:.0f} megabytes: {MOST_MEGABYTES} at most would do.")
    upright = _upright(data, called)
    shown = _jpeg(upright, SHOWN_PX)
    return Photo(
        original=data, sha256=hashlib.sha256(data).hexdigest(), name=called,
        shown=shown[0], small=_jpeg(upright, SMALL_PX)[0], width_px=shown[1], height_px=shown[2],
    )


def _upright(data: bytes, called: str) -> Image.Image:
    if data.lstrip()[:5] == b"%PDF-":
        raise _no(f"The file {called} is a PDF and no photo: {WOULD_DO}.")
    try:
        image = Image.open(BytesIO(data), formats=FORMATS)
    except (Image.DecompressionBombWarning, Image.DecompressionBombError):
        raise _too_large(called) from None
    except _BROKEN:
        raise _no(f"The file {called} is no photo that can be read here: {WOULD_DO}.") from None
    if image.width * image.height > MOST_MEGAPIXELS * 1_000_000:
        raise _too_large(called)
    try:
        # A JPEG can be unpacked at a half or a quarter of its size, which is all that the shown copy needs.
        image.draft("RGB", (SHOWN_PX, SHOWN_PX))
        # The PDF library switches this on for the whole process when it is imported, and half a photo would pass.
        ImageFile.LOAD_TRUNCATED_IMAGES = False
        image.load()
        return _on_white(ImageOps.exif_transpose(image))
    except _BROKEN:
        raise _no(f"The photo {called} came only in part and can't be read to its end: send it once more, or take it again.") from None


def _on_white(image: Image.Image) -> Image.Image:
    if "transparency" not in image.info and image.mode not in ("RGBA", "LA", "PA"):
        return image.convert("RGB")
    clear = image.convert("RGBA")
    ground = Image.new("RGBA", clear.size, "white")
    return Image.alpha_composite(ground, clear).convert("RGB")


def _jpeg(image: Image.Image, longest_px: int) -> tuple[bytes, int, int]:
    """A copy no longer than this; a fresh file holds pixels and nothing else, so place and camera stay behind."""
    small = image.copy()
    small.thumbnail((longest_px, longest_px))
    small.info.clear()
    out = BytesIO()
    small.save(out, "JPEG", quality=85, optimize=True)
    return out.getvalue(), small.width, small.height


def _called(name: str) -> str:
    """The file's own name, short enough for a sentence and without a path or unprintable characters."""
    bare = name.replace("\\", "/").rsplit("/", 1)[-1]
    plain = "".join(character for character in bare if character.isprintable()).strip()
    return plain[-60:] or "without a name"


def _too_large(called: str) -> Refuse:
    return _no(f"The photo {called} has more than {MOST_MEGAPIXELS} megapixels: take it at a smaller size.")


def _no(sentence: str) -> Refuse:
    return Refuse(sentence, field="photo")
