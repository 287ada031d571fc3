"""How long each voice talks in a recording. Pure."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from typing import TypeVar

Voice = TypeVar("Voice", bound=Hashable)


def talk_time(turns: Iterable[tuple[Voice, int, int]]) -> dict[Voice, int]:
    """Milliseconds of talk by voice, the longest first; where lines of one voice overlap, the time counts once."""
    by_voice: dict[Voice, list[tuple[int, int]]] = {}
    for voice, start, end in turns:
        by_voice.setdefault(voice, []).append((start, end))
    lengths = {voice: _covered(sorted(spans)) for voice, spans in by_voice.items()}
    return dict(sorted(lengths.items(), key=lambda item: -item[1]))


def _covered(spans: Iterable[tuple[int, int]]) -> int:
    covered, until = 0, 0
    for start, end in spans:
        covered += max(0, end - max(start, until))
        until = max(until, end)
    return covered
