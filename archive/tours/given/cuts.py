"""The stretch of a recording that a clip is, cut and masked, as an MP3 to carry: it plays on every device. Pure."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory

from archive.audio.cutting import cut
from archive.values.timecode import Span

MEDIA_TYPE = "audio/mpeg"


@lru_cache(maxsize=128)
def cut_clip(master: Path, span: Span, closed: tuple[Span, ...]) -> bytes:
    """The sound of a span of a master, whose closed ranges are silent. Kept in memory, by master, span and closures."""
    with TemporaryDirectory() as folder:
        target = Path(folder) / "cut.mp3"
        cut(master, target, span, closed=closed)
        return target.read_bytes()
