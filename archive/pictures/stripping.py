"""What is not the picture itself, taken out of a file without touching a point of it.

Sources: ITU-T T.81 annex B (JPEG markers), PNG (W3C, third edition) section 5, and the WebP container specification.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator

_PNG_HEAD = b"\x89PNG\r\n\x1a\n"
_PNG_KEPT = {b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"sBIT", b"pHYs", b"bKGD"}
_WEBP_KEPT = {b"VP8 ", b"VP8L", b"VP8X", b"ALPH", b"ICCP"}
# In VP8X: only the flags for a colour profile (0x20) and for transparency (0x10) are left standing.
_WEBP_FLAGS = 0x30
_SOS, _EOI, _COMMENT, _ADOBE = 0xDA, 0xD9, 0xFE, 0xEE
_BARE_MARKERS = {0x01, *range(0xD0, 0xD9)}


def stripped(content: bytes, form: str) -> bytes:
    """The file without camera notes, comments or anything after its end; raises ValueError if it is broken."""
    return {"PNG": _png, "JPEG": _jpeg, "WEBP": _webp}[form](content)


def _png(content: bytes) -> bytes:
    kept = [_PNG_HEAD]
    place = len(_PNG_HEAD)
    while place < len(content):
        length, kind = struct.unpack_from(">I4s", content, place)
        chunk = content[place : place + length + 12]
        if len(chunk) != length + 12 or zlib.crc32(chunk[4:-4]) != int.from_bytes(chunk[-4:], "big"):
            raise ValueError("a PNG chunk is broken")
        if kind in _PNG_KEPT:
            kept.append(chunk)
        if kind == b"IEND":
            return b"".join(kept)
        place += length + 12
    raise ValueError("the PNG does not end")


def _webp(content: bytes) -> bytes:
    if content[:4] != b"RIFF" or content[8:12] != b"WEBP":
        raise ValueError("this is no WebP")
    body = b"".join(_webp_chunks(content))
    return b"RIFF" + struct.pack("<I", len(body) + 4) + b"WEBP" + body


def _webp_chunks(content: bytes) -> Iterator[bytes]:
    end = min(len(content), 8 + int.from_bytes(content[4:8], "little"))
    place = 12
    while place + 8 <= end:
        kind, length = struct.unpack_from("<4sI", content, place)
        payload = content[place + 8 : place + 8 + length]
        if len(payload) != length:
            raise ValueError("a WebP chunk is broken")
        if kind == b"VP8X":
            payload = bytes([payload[0] & _WEBP_FLAGS]) + payload[1:]
        if kind in _WEBP_KEPT:
            yield kind + struct.pack("<I", length) + payload + b"\0" * (length % 2)
        place += 8 + length + length % 2


def _jpeg(content: bytes) -> bytes:
    if content[:2] != b"\xff\xd8":
        raise ValueError("this is no JPEG")
    kept = [b"\xff\xd8"]
    place = 2
    while place < len(content):
        marker, end = _jpeg_segment(content, place)
        if _is_kept(marker, content[place + 4 : end]):
            kept.append(content[place:end])
        if marker == _EOI:
            return b"".join(kept)
        place = end
    # Cameras now and then leave the end mark out; readers do without it.
    return b"".join(kept) + b"\xff\xd9"


def _jpeg_segment(content: bytes, place: int) -> tuple[int, int]:
    """The marker at a place, and where its segment ends; a scan's own data belongs to it."""
    if content[place] != 0xFF:
        raise ValueError("a JPEG marker is missing")
    marker = content[place + 1]
    if marker in _BARE_MARKERS or marker == _EOI:
        return marker, place + 2
    end = place + 2 + int.from_bytes(content[place + 2 : place + 4], "big")
    return (marker, _scan_end(content, end)) if marker == _SOS else (marker, end)


def _scan_end(content: bytes, place: int) -> int:
    """Where the next marker stands that is neither a stuffed byte nor a restart."""
    while True:
        place = content.find(b"\xff", place)
        if place < 0 or place + 1 >= len(content):
            return len(content)
        following = content[place + 1]
        if following == 0 or 0xD0 <= following <= 0xD7:
            place += 2
        elif following == 0xFF:
            place += 1
        else:
            return place


def _is_kept(marker: int, payload: bytes) -> bool:
    """Everything but application notes and comments; of the notes, the frame's own, colour profile and Adobe's."""
    if marker == 0xE2:
        return payload.startswith(b"ICC_PROFILE\0")
    return marker != _COMMENT and (not 0xE1 <= marker <= 0xEF or marker == _ADOBE)
