"""Which kind of sound file the first bytes speak of; anything else is told apart by name and refused."""

from __future__ import annotations

from pathlib import Path

from archive.errors import CannotRead

SOUND_ALLOWED = "Give a WAV, FLAC, WebM, Ogg, Opus, MP3, M4A, AIFF or WMA file, or a video file with sound"

_HEAD = 4096
_PLAYLISTS = (b"#extm3u", b"ffconcat", b"[playlist]", b"[reference]", b"file ", b"<asx", b"<smil", b"v=0")
# These stand behind an XML declaration and remarks.
_XML_PLAYLISTS = (b"<mpd", b"<playlist", b"<smoothstreamingmedia", b"<smil", b"<asx")
_PICTURES = (b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"BM", b"II*\x00", b"MM\x00*")
_PLAIN = (
    (b"fLaC", "flac"),
    (b"OggS", "ogg"),
    (b"\x1aE\xdf\xa3", "matroska"),
    (b"0&\xb2u\x8ef\xcf\x11", "asf"),
    (b"riff.\x91\xcf\x11", "w64"),
    (b"\x00\x00\x01\xba", "mpeg"),
    (b"FLV\x01", "flv"),
    (b".snd", "au"),
    (b"caff", "caf"),
    (b"wvpk", "wv"),
    (b"#!AMR", "amr"),
)
_RIFF_KINDS = {b"WAVE": "wav", b"AVI ": "avi"}
_MOV_BOXES = (b"ftyp", b"moov", b"mdat", b"wide")
_TS_PACKET = 188


def container_of(path: Path) -> str:
    """The container's name as FFmpeg knows it, from the first bytes alone; raises CannotRead for what is not sound."""
    with path.open("rb") as file:
        head = file.read(_HEAD)
        after_tag = _length_of_id3(head)
        if after_tag:
            file.seek(after_tag)
            head = file.read(_HEAD) or head
    kind = _kind(head) or ("mp3" if after_tag else None)
    if kind is None:
        raise CannotRead(path.name, 0, _what_it_is(head), SOUND_ALLOWED)
    return kind


def _kind(head: bytes) -> str | None:
    if head[:4] in (b"RIFF", b"RF64", b"BW64"):
        return _RIFF_KINDS.get(head[8:12])
    if head[:4] == b"FORM" and head[8:12] in (b"AIFF", b"AIFC"):
        return "aiff"
    if head[4:8] in _MOV_BOXES:
        return "mov"
    for start, kind in _PLAIN:
        if head.startswith(start):
            return kind
    if len(head) > 3 * _TS_PACKET and set(head[: 3 * _TS_PACKET + 1 : _TS_PACKET]) == {ord("G")}:
        return "mpegts"
    return _mpeg_kind(head)


def _mpeg_kind(head: bytes) -> str | None:
    """MPEG sound has no name at its head, only the pattern that each frame starts with."""
    if len(head) < 4 or head[0] != 0xFF or head[1] & 0xE0 != 0xE0:
        return None
    layer, version = head[1] >> 1 & 3, head[1] >> 3 & 3
    if layer == 0:
        return "aac" if head[1] & 0xF6 == 0xF0 else None
    rate_known = head[2] >> 2 & 3 != 3 and head[2] >> 4 not in (0, 15)
    return "mp3" if version != 1 and rate_known else None


def _length_of_id3(head: bytes) -> int:
    """How many bytes an ID3 tag takes at the start, 0 where there is none."""
    if head[:3] != b"ID3" or len(head) < 10:
        return 0
    return 10 + sum((byte & 0x7F) << shift for byte, shift in zip(head[6:10], (21, 14, 7, 0), strict=True))


def _what_it_is(head: bytes) -> str:
    """In words, for the person who gave the file."""
    text = head.removeprefix(b"\xef\xbb\xbf").lstrip().lower()
    if not head:
        return "it is empty"
    if text.startswith(_PLAYLISTS) or (text.startswith(b"<") and any(word in text for word in _XML_PLAYLISTS)):
        return "it is a playlist, which points to other files, and not sound itself"
    if head.startswith(_PICTURES) or head[8:12] == b"WEBP" or b"<svg" in head:
        return "it is a picture, not sound"
    if _is_text(head):
        return "it is text, not sound"
    return "its first bytes are those of no sound file that is known here"


def _is_text(head: bytes) -> bool:
    if any(byte < 9 or 13 < byte < 27 for byte in head):
        return False
    try:
        head.decode()
    except UnicodeDecodeError as problem:
        # The last letter may be cut in two where the head ends.
        return problem.start >= _HEAD - 3
    return True
