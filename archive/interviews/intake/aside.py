"""Files of which nothing could be read: kept as they came, each with its reason beside it."""

from __future__ import annotations

import json
import os
import shutil
from dataclasses import asdict, dataclass
from pathlib import Path

from archive.settings import Settings

_REASON = ".reason.json"


@dataclass(frozen=True)
class SetAside:
    """One such file: where it lies, what it was called, for which interview it came, and why it could not be read."""

    file: str
    name: str
    interview: str
    reason: str


def set_aside(settings: Settings, source: Path, sha256: str, name: str, interview: str, reason: str) -> Path:
    """Keep a copy of a file that cannot be read, whole before it has its name. The same file is kept once."""
    settings.unreadable.mkdir(parents=True, exist_ok=True, mode=0o700)
    place = settings.unreadable / f"{sha256[:12]}-{name}"[:200]
    told = json.dumps(asdict(SetAside(place.name, name, interview, reason)), ensure_ascii=False)
    if not place.exists():
        half = place.with_name(f".{place.name}.part")
        shutil.copyfile(source, half)
        os.replace(half, place)
    place.with_name(place.name + _REASON).write_text(told, "utf-8")
    return place


def all_set_aside(settings: Settings) -> list[SetAside]:
    """Every file that lies aside, by name."""
    reasons = sorted(settings.unreadable.glob(f"*{_REASON}"))
    found = [SetAside(**json.loads(each.read_text("utf-8"))) for each in reasons]
    return [each for each in found if (settings.unreadable / each.file).is_file()]
