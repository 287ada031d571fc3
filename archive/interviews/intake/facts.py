"""What the pass over a master found, as it is kept with the recording and told to people."""

from __future__ import annotations

import base64
import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from archive.values.timecode import format_clock

if TYPE_CHECKING:
    from archive.audio.one_pass import TakenIn
    from archive.audio.reading import Break
    from archive.audio.same_sound import Fingerprint

_MOST_PLACES = 12
_DAY = re.compile(r"(\d{4})[-:/. ](\d{2})[-:/. ](\d{2})")
_TIME = re.compile(r"(\d{2})[-:/. ](\d{2})[-:/. ](\d{2})")

MEDIA_TYPES = {
    "wav": "audio/wav",
    "rf64": "audio/wav",
    "bw64": "audio/wav",
    "w64": "audio/x-w64",
    "flac": "audio/flac",
    "mp3": "audio/mpeg",
    "mp4": "audio/mp4",
    "aac": "audio/aac",
    "ogg": "audio/ogg",
    "matroska": "audio/webm",
    "aiff": "audio/aiff",
    "asf": "audio/x-ms-wma",
}
ENDINGS = {"wav": ".wav", "rf64": ".wav", "bw64": ".wav", "mp4": ".m4a", "matroska": ".webm", "asf": ".wma"}


def kept_facts(found: TakenIn) -> dict[str, Any]:
    """The facts for `Recording.facts`: levels in LUFS, LU and dBTP, shares from 0 to 1, pauses in milliseconds."""
    loudness, facts = found.loudness, found.facts
    return {
        "container": facts.container,
        "codec": facts.codec,
        "bits": facts.bits,
        "layout": facts.layout,
        "pictures": facts.pictures,
        "bext": None if facts.broadcast is None else asdict(facts.broadcast),
        "integrated_lufs": _figure(loudness.integrated),
        "range_lu": _figure(loudness.range),
        "true_peak_dbtp": _figure(loudness.true_peak),
        "clipped_share": round(found.clipping_share, 6),
        "silent_share": round(found.silence_share, 4),
        "gain_db": round(found.gain_db, 2),
        "pauses": [[pause.start_ms, pause.end_ms] for pause in found.pauses],
    }


def damage_told(breaks: Sequence[Break]) -> str:
    """Where a master is broken, in words; "" when it is whole."""
    if not breaks:
        return ""
    places = [f"at {format_clock(each.at_ms)} {each.found}" for each in breaks[:_MOST_PLACES]]
    more = len(breaks) - len(places)
    return "; ".join(places) + (f"; and {more} more places" if more else "")


def likeness_kept(fingerprint: Fingerprint) -> list[str]:
    """The fingerprint for `Recording.likeness`."""
    return [base64.b64encode(fingerprint.to_bytes()).decode("ascii")]


def likeness_read(kept: Sequence[str]) -> Fingerprint:
    """The fingerprint as it was kept."""
    from archive.audio.same_sound import Fingerprint

    return Fingerprint.from_bytes(base64.b64decode(kept[0]))


def recorded_at(day: str, time: str = "") -> dt.datetime | None:
    """The moment that a recorder wrote into its file; None where it wrote none, or one that is no date."""
    found, clock = _DAY.match(day.strip()), _TIME.match(time.strip())
    if not found:
        return None
    try:
        date = dt.date(*map(int, found.groups()))
        hour, minute, second = map(int, clock.groups()) if clock else (0, 0, 0)
        return dt.datetime.combine(date, dt.time(hour, minute, second))
    except ValueError:
        return None


def _figure(value: float | None) -> float | None:
    return None if value is None else round(value, 2)
