"""What a long piece of listening has finished, kept in a folder, so that after a kill it goes on from there."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from archive.values.timecode import Span

_HEARD = "heard.jsonl"
_MADE_FOR = "made-for"


class KeptWork:
    """A folder of work for one sound and what was told of it; what it holds of another is thrown away."""

    def __init__(self, folder: Path, source: Path, told: Iterable[str]) -> None:
        self.folder = folder
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        mark = _fingerprint(source, told)
        made_for = folder / _MADE_FOR
        if not made_for.is_file() or made_for.read_text("ascii", errors="replace") != mark:
            (folder / _HEARD).unlink(missing_ok=True)
            made_for.write_text(mark, "ascii")

    def heard(self) -> dict[Span, list[list[Any]]]:
        """The words of the stretches that were heard already; a line that a kill cut short is passed over."""
        place = self.folder / _HEARD
        found: dict[Span, list[list[Any]]] = {}
        for line in place.read_text("utf-8").splitlines() if place.is_file() else ():
            try:
                start, end, words = json.loads(line)
            except ValueError:
                continue
            found[Span(start, end)] = words
        return found

    def keep(self, heard_in: Span, words: Iterable[Sequence[Any]]) -> None:
        """Add a stretch. Each begins on a line of its own, whatever a kill left of the one before."""
        told = [heard_in.start_ms, heard_in.end_ms, [list(word) for word in words]]
        with (self.folder / _HEARD).open("a", encoding="utf-8") as file:
            file.write(f"\n{json.dumps(told)}\n")


def _fingerprint(source: Path, told: Iterable[str]) -> str:
    facts = source.stat()
    made = hashlib.sha256(f"{source.resolve()} {facts.st_size} {facts.st_mtime_ns}".encode())
    for text in told:
        made.update(b"\0" + text.encode())
    return made.hexdigest()
