"""Sounds asked of espeak-ng where it is installed, many words at a time."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Sequence

from archive.audio.aligning.written_sounds import sounds_of_ipa

_PATIENCE_S = 30
_AT_A_TIME = 500


def sounds_by_speaker(words: Sequence[str]) -> dict[str, list[str]]:
    """The sounds of words by espeak-ng; none where it is not installed or does not answer."""
    program = shutil.which("espeak-ng")
    if program is None:
        return {}
    found: dict[str, list[str]] = {}
    for start in range(0, len(words), _AT_A_TIME):
        some = words[start : start + _AT_A_TIME]
        found.update(zip(some, _ask(program, some), strict=False))
    return {word: sounds for word, sounds in found.items() if sounds}


def _ask(program: str, words: Sequence[str]) -> list[list[str]]:
    """A line each; nothing when the lines do not tally, since then no word is sure to have its own."""
    command = [program, "-q", "--ipa=1", "-v", "en-gb"]
    try:
        told = subprocess.run(
            command, input="\n".join(words), capture_output=True, encoding="utf-8", timeout=_PATIENCE_S, check=True
        )
    except (OSError, subprocess.SubprocessError):
        return []
    lines = told.stdout.strip("\n").splitlines()
    return [sounds_of_ipa(line) for line in lines] if len(lines) == len(words) else []
