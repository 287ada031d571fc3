"""What the chunks of a WAV, RF64 or BW64 file say: its format, how much sound it promises, and the broadcast words.

Sources: EBU Tech 3285 (the `bext` chunk), EBU Tech 3306 and ITU-R BS.2088 (RF64 and BW64, sizes in the `ds64` chunk).
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

_UNKNOWN_SIZE = 0xFFFFFFFF
_MOST_CHUNKS = 1000
_MOST_READ = 65_536
_DS64 = struct.Struct("<QQQI")
_TABLE_ROW = struct.Struct("<4sQ")
_FMT = struct.Struct("<HHIIHH")
_BEXT = struct.Struct("<256s32s32s10s8sQH64s5h180x")
# The value that Tech 3285 gives to a loudness that was not measured.
_NOT_MEASURED = 0x7FFF
_MEASURES = ("loudness", "loudness_range", "true_peak", "momentary_max", "short_term_max")


@dataclass(frozen=True)
class Broadcast:
    """The fields of a `bext` chunk; loudness in LUFS, LU and dBTP, None where it was not measured."""

    description: str
    originator: str
    originator_reference: str
    origination_date: str
    origination_time: str
    time_reference: int
    version: int
    umid: str
    coding_history: str
    loudness: float | None
    loudness_range: float | None
    true_peak: float | None
    momentary_max: float | None
    short_term_max: float | None


@dataclass(frozen=True)
class Riff:
    """A WAV file by its chunks. `promised` and `there` are the bytes of sound that its head names and that it has."""

    form: str
    channels: int
    rate: int
    byte_rate: int
    bits: int
    promised: int | None
    there: int
    broadcast: Broadcast | None


def read_riff(path: Path) -> Riff | None:
    """The chunks of a WAV file; None for any other file. Damaged chunks are passed over, never trusted."""
    with path.open("rb") as file:
        head = file.read(12)
        if len(head) < 12 or head[:4] not in (b"RIFF", b"RF64", b"BW64") or head[8:] != b"WAVE":
            return None
        return _Reader(file, path.stat().st_size).read(head[:4].decode())


@dataclass
class _Reader:
    file: BinaryIO
    size: int

    def read(self, form: str) -> Riff:
        channels = rate = byte_rate = bits = there = 0
        promised: int | None = None
        broadcast = None
        for name, content, length in self._chunks():
            if name == b"fmt " and len(content) >= _FMT.size:
                _, channels, rate, byte_rate, _, bits = _FMT.unpack_from(content)
            elif name == b"bext" and broadcast is None:
                broadcast = parse_bext(content)
            elif name == b"data" and not there:
                promised, there = length, min(length or self.size, self.size - self.file.tell())
        return Riff(form, channels, rate, byte_rate, bits, promised, there, broadcast)

    def _chunks(self) -> Iterator[tuple[bytes, bytes, int | None]]:
        """Name, content as far as it is read, and promised length; the file stands where the content starts."""
        at = 12
        long_sizes: dict[bytes, int] = {}
        for _ in range(_MOST_CHUNKS):
            self.file.seek(at)
            head = self.file.read(8)
            if len(head) < 8:
                return
            name, length = head[:4], int.from_bytes(head[4:], "little")
            content = b"" if name == b"data" else self.file.read(min(length, _MOST_READ))
            if name == b"ds64":
                long_sizes = _long_sizes(content)
            if length == _UNKNOWN_SIZE:
                length = long_sizes.get(name, 0)
            self.file.seek(at + 8)
            yield name, content, length or None
            if not length and name == b"data":
                return
            at += 8 + length + length % 2


def _long_sizes(content: bytes) -> dict[bytes, int]:
    if len(content) < _DS64.size:
        return {}
    _, data, _, rows = _DS64.unpack_from(content)
    sizes = {b"data": data}
    for number in range(min(rows, (len(content) - _DS64.size) // _TABLE_ROW.size)):
        name, size = _TABLE_ROW.unpack_from(content, _DS64.size + number * _TABLE_ROW.size)
        sizes.setdefault(name, size)
    return sizes


def parse_bext(content: bytes) -> Broadcast | None:
    """The fields of a `bext` chunk; None where it is too short to hold them."""
    if len(content) < _BEXT.size:
        return None
    description, originator, reference, date, time, samples, version, umid, *loudness = _BEXT.unpack_from(content)
    measured = (value / 100 if version >= 2 and value != _NOT_MEASURED else None for value in loudness)
    return Broadcast(
        description=_text(description),
        originator=_text(originator),
        originator_reference=_text(reference),
        origination_date=_text(date),
        origination_time=_text(time),
        time_reference=samples,
        version=version,
        umid=umid.hex() if version >= 1 and any(umid) else "",
        coding_history=_text(content[_BEXT.size :]),
        **dict(zip(_MEASURES, measured, strict=True)),
    )


def _text(field: bytes) -> str:
    """A field up to its first zero byte; ASCII by the standard, in practice UTF-8 or Latin-1 too."""
    kept = field.partition(b"\0")[0]
    try:
        text = kept.decode()
    except UnicodeDecodeError:
        text = kept.decode("latin-1")
    return "".join(letter for letter in text.replace("\r\n", "\n") if letter.isprintable() or letter == "\n").strip()
