"""Pictures made ready: checked, upright, without a camera's notes, and the same when prepared again."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageChops

from archive.errors import CannotRead
from archive.pictures.preparing import prepare

FORMS = [("JPEG", ".jpg"), ("PNG", ".png"), ("WEBP", ".webp")]
SECRET = "Camera of somebody"


def picture(form: str, orientation: int = 1, size: tuple[int, int] = (40, 24)) -> bytes:
    """A picture, its left half dark, with a camera's notes."""
    image = Image.new("RGB", size, "white")
    image.paste("navy", (0, 0, size[0] // 2, size[1]))
    notes = Image.Exif()
    notes[0x010F], notes[0x0112] = SECRET, orientation
    buffer = io.BytesIO()
    image.save(buffer, form, exif=notes, xmp=SECRET.encode())
    return buffer.getvalue()


def written(tmp_path: Path, content: bytes, suffix: str) -> Path:
    """The bytes as a file."""
    path = tmp_path / f"picture{suffix}"
    path.write_bytes(content)
    return path


def bomb() -> bytes:
    """A PNG of a few bytes that says it is 30,000 points wide and high."""
    head = struct.pack(">IIBBBBB", 30_000, 30_000, 8, 2, 0, 0, 0)
    chunks = [(b"IHDR", head), (b"IDAT", zlib.compress(b"\0" * 1000)), (b"IEND", b"")]
    body = b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data)) for kind, data in chunks
    )
    return b"\x89PNG\r\n\x1a\n" + body


@pytest.mark.parametrize(
    ("content", "suffix"),
    [
        (b"", ".png"),
        (b"text", ".jpg"),
        (picture("PNG"), ".jpg"),
        (picture("JPEG"), ".webp"),
        (picture("JPEG"), ".gif"),
        (picture("PNG")[:60], ".png"),
        (picture("JPEG")[:200], ".jpg"),
        (picture("WEBP")[:60], ".webp"),
        (bomb(), ".png"),
    ],
    ids=[
        "empty",
        "text",
        "PNG as JPEG",
        "JPEG as WebP",
        "no known ending",
        "half PNG",
        "half JPEG",
        "half WebP",
        "bomb",
    ],
)
def test_what_is_no_such_picture_is_refused(tmp_path: Path, content: bytes, suffix: str) -> None:
    """By its content, whatever its ending says, and before a bomb goes off."""
    with pytest.raises(CannotRead):
        prepare(written(tmp_path, content, suffix))


@pytest.mark.parametrize(("form", "suffix"), FORMS)
def test_a_moving_picture_is_refused(tmp_path: Path, form: str, suffix: str) -> None:
    """Only what stands still is kept."""
    if form == "JPEG":
        return
    frames = [Image.new("RGB", (9, 9), colour) for colour in ("red", "blue")]
    path = tmp_path / f"moving{suffix}"
    frames[0].save(path, form, save_all=True, append_images=frames[1:])
    with pytest.raises(CannotRead, match="it moves"):
        prepare(path)


@pytest.mark.parametrize(("form", "suffix"), FORMS)
@pytest.mark.parametrize("orientation", [1, 3, 6, 8])
def test_notes_go_and_the_picture_stands_upright(tmp_path: Path, form: str, suffix: str, orientation: int) -> None:
    """No word of the camera is left, and turning is done in the points themselves."""
    path = written(tmp_path, picture(form, orientation) + b"trailing " + SECRET.encode(), suffix)
    prepared = prepare(path)
    assert SECRET.encode() not in prepared.content
    assert (prepared.width, prepared.height) == ((24, 40) if orientation in (6, 8) else (40, 24))
    shown = Image.open(io.BytesIO(prepared.content))
    assert shown.size == (prepared.width, prepared.height)
    dark = {1: (5, 12), 3: (35, 12), 6: (12, 5), 8: (12, 35)}[orientation]
    assert sum(shown.convert("RGB").getpixel(dark)) < 250  # type: ignore[arg-type]


@pytest.mark.parametrize(("form", "suffix"), FORMS)
def test_an_upright_picture_keeps_every_point(tmp_path: Path, form: str, suffix: str) -> None:
    """Nothing is packed anew, so nothing is lost, and preparing again changes nothing."""
    path = written(tmp_path, picture(form), suffix)
    prepared = prepare(path)
    before = Image.open(path).convert("RGB")
    after = Image.open(io.BytesIO(prepared.content)).convert("RGB")
    assert ImageChops.difference(before, after).getbbox() is None
    assert prepare(written(tmp_path, prepared.content, suffix)) == prepared


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(st.sampled_from(FORMS), st.integers(0, 400), st.binary(max_size=30))
def test_broken_bytes_are_refused_or_read(tmp_path: Path, form: tuple[str, str], at: int, junk: bytes) -> None:
    """Junk in the middle of a picture never ends in another error."""
    content = picture(form[0])
    path = written(tmp_path, content[:at] + junk + content[at + len(junk) :], form[1])
    try:
        prepared = prepare(path)
    except CannotRead:
        return
    assert prepared.width > 0
