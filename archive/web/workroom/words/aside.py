"""A typed transcript between being brought and being kept: its bytes and what was chosen lie aside under a key."""

from __future__ import annotations

import json
import os
import re
import secrets
import time
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path

from archive.errors import NotFound
from archive.settings import Settings

LONGEST_NAME = 200
_KEPT_FOR_S = 7 * 24 * 3600


@dataclass(frozen=True)
class Chosen:
    """How the file is understood, and whom each label stands for: a reference, "" as written, "no" for no speaker."""

    how: dict[str, str] = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Aside:
    """A file laid aside for a recording by somebody, who saw the transcript as of a version."""

    key: int
    recording: str
    file_name: str
    who: str
    based_on: int
    chosen: Chosen = Chosen()


def lay_aside(settings: Settings, aside: Aside, content: bytes) -> Aside:
    """Keep a file aside, under a new key unless it has one; what others left lying for a week is cleared away."""
    folder = _folder(settings)
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    _clear_old(folder)
    made = replace(aside, key=aside.key or secrets.randbits(62))
    _bytes(settings, made.key).write_bytes(content)
    note(settings, made)
    return made


def note(settings: Settings, aside: Aside) -> None:
    """Write down what is known and chosen, whole or not at all."""
    place = _facts(settings, aside.key)
    new = place.with_suffix(f".{secrets.token_hex(4)}")
    new.write_text(json.dumps(asdict(aside), ensure_ascii=False), "utf-8")
    os.replace(new, place)


def find(settings: Settings, key: int, recording: str) -> Aside:
    """What lies aside under a key for this recording."""
    try:
        facts = json.loads(_facts(settings, key).read_text("utf-8"))
    except FileNotFoundError as problem:
        raise _gone(key) from problem
    if facts["recording"] != recording:
        raise _gone(key)
    return Aside(**{**facts, "chosen": Chosen(**facts["chosen"])})


def content_of(settings: Settings, aside: Aside) -> Path:
    """Where its bytes lie."""
    place = _bytes(settings, aside.key)
    if not place.is_file():
        raise _gone(aside.key)
    return place


def drop(settings: Settings, aside: Aside) -> None:
    """Clear it away."""
    _facts(settings, aside.key).unlink(missing_ok=True)
    _bytes(settings, aside.key).unlink(missing_ok=True)


def tidy_name(name: str) -> str:
    """A file's name as it is told: without folders or signs that nobody sees."""
    last = re.split(r"[/\\]", name)[-1]
    return re.sub(r"[\x00-\x1f\x7f\u2028\u2029\u202a-\u202e]", "", last).strip()[-LONGEST_NAME:] or "transcript"


def _gone(key: int) -> NotFound:
    return NotFound(f"No typed transcript lies aside under {key}. Bring the file again.")


def _folder(settings: Settings) -> Path:
    return settings.incoming / "words"


def _bytes(settings: Settings, key: int) -> Path:
    return _folder(settings) / f"{key:x}.file"


def _facts(settings: Settings, key: int) -> Path:
    return _folder(settings) / f"{key:x}.json"


def _clear_old(folder: Path) -> None:
    for place in folder.iterdir():
        if time.time() - place.stat().st_mtime > _KEPT_FOR_S:
            place.unlink(missing_ok=True)
