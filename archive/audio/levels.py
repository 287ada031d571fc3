"""The levels of a sound for drawing it: one peak for every tenth of a second.

As bytes (version 1): the letters `LEVELS`, the version (1 byte), a zero byte, the step in milliseconds and the
number of peaks (4 bytes each, least significant first), then one byte a peak: 0 for silence to 255 for full scale.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass

from archive.errors import CannotRead

_HEAD = struct.Struct("<6sBBII")
_NAME, _VERSION = b"LEVELS", 1


@dataclass(frozen=True)
class Levels:
    """Peaks from 0 to 255, one for each step; a peak is 0 in every step that a closed range touches."""

    step_ms: int
    peaks: tuple[int, ...]

    def to_bytes(self) -> bytes:
        """As kept in a file."""
        return _HEAD.pack(_NAME, _VERSION, 0, self.step_ms, len(self.peaks)) + bytes(self.peaks)

    @classmethod
    def from_bytes(cls, content: bytes, name: str = "levels") -> Levels:
        """As read back; raises CannotRead for anything else."""
        if len(content) >= _HEAD.size:
            word, version, _, step_ms, count = _HEAD.unpack_from(content)
            if (word, version) == (_NAME, _VERSION) and len(content) == _HEAD.size + count:
                return cls(step_ms, tuple(content[_HEAD.size :]))
        raise CannotRead(
            name,
            0,
            "it does not hold levels of version 1",
            "Load the collection folder again with: lemel load FOLDER --replace",
        )
