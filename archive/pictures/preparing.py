"""A picture made ready to be shown: checked, turned upright, and without the notes that a camera leaves in it."""

from __future__ import annotations

import io
import struct
import warnings
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageOps

from archive.errors import CannotRead
from archive.pictures.stripping import stripped

MOST_BYTES = 50_000_000
MOST_PIXELS = 60_000_000
LONGEST_SIDE = 20_000
MEDIA_TYPES = {"JPEG": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp"}
ENDINGS = {".jpg": "JPEG", ".jpeg": "JPEG", ".png": "PNG", ".webp": "WEBP"}
ALLOWED = "Give a whole JPEG, PNG or WebP picture whose ending says what it is"
_ORIENTATION = 0x0112
_QUALITY = 90


@dataclass(frozen=True)
class PreparedPicture:
    """The bytes to keep, and what they show."""

    content: bytes
    width: int
    height: int
    media_type: str


def prepare(path: Path) -> PreparedPicture:
    """The picture ready to keep; raises CannotRead.

    Bytes that need no change are kept as they are, so that preparing twice is the same as once.
    """
    form = ENDINGS.get(path.suffix.lower(), "")
    if path.stat().st_size > MOST_BYTES:
        raise CannotRead(path.name, 0, "it is larger than 50 MB", "Make the picture smaller")
    content = path.read_bytes()
    try:
        with warnings.catch_warnings():
            # Pillow warns of oddities in notes that are thrown away; size is judged here, not by its warning.
            warnings.simplefilter("ignore")
            image = _opened(content, form, path.name)
            upright = _upright(image)
        content = stripped(content, form) if upright is image else stripped(_encoded(upright, form), form)
    except (
        OSError,
        SyntaxError,
        ValueError,
        struct.error,
        IndexError,
        KeyError,
        TypeError,
        EOFError,
        OverflowError,
    ) as problem:
        raise CannotRead(path.name, 0, f"it cannot be read as a {form or 'known'} picture", ALLOWED) from problem
    except Image.DecompressionBombError as problem:
        raise CannotRead(path.name, 0, "it has too many points", _too_large()) from problem
    return PreparedPicture(content, upright.width, upright.height, MEDIA_TYPES[form])


def _opened(content: bytes, form: str, name: str) -> Image.Image:
    """The picture, decoded whole; its size is judged before that."""
    if not form:
        raise CannotRead(name, 0, "its ending is that of no known picture", ALLOWED)
    image = Image.open(io.BytesIO(content), formats=[form])
    if image.width * image.height > MOST_PIXELS or max(image.size) > LONGEST_SIDE:
        raise CannotRead(name, 0, f"it has {image.width} x {image.height} points", _too_large())
    if getattr(image, "n_frames", 1) > 1:
        raise CannotRead(name, 0, "it moves", "Give a picture that stands still")
    image.load()
    return image


def _upright(image: Image.Image) -> Image.Image:
    """The same picture, or one turned as its camera says."""
    if image.getexif().get(_ORIENTATION, 1) in (None, 0, 1):
        return image
    return ImageOps.exif_transpose(image)


def _encoded(image: Image.Image, form: str) -> bytes:
    buffer = io.BytesIO()
    image.save(buffer, form, quality=_QUALITY, icc_profile=image.info.get("icc_profile"), exif=b"")
    return buffer.getvalue()


def _too_large() -> str:
    return f"It may have up to {MOST_PIXELS // 1_000_000} million points and {LONGEST_SIDE} on a side"
