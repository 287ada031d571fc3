"""The words that a WAV file carries for a sound editor: what it is, and where on the master's own clock it starts.

Sources: EBU Tech 3285 (the `bext` chunk: ASCII, 256 letters of description) and EBU R 98 (the coding history). No day
and no time are written, so that the same cut is the same file.
"""

from __future__ import annotations

import unicodedata
from dataclasses import replace

from archive.audio.reading import Sound
from archive.audio.writing import Form

ORIGINATOR = "Lemel"
_LONGEST_DESCRIPTION = 256
_MODES = {1: ",M=mono", 2: ",M=stereo"}


def with_broadcast(form: Form, sound: Sound, first: int, description: str, gain_db: float) -> Form:
    """A WAV form with such words; `first` is the sample of the master at which the cut starts."""
    bits = "".join(letter for letter in form.codec if letter.isdigit())
    done = f"{ORIGINATOR}, cut from a master" + (f", gain {gain_db:+.1f} dB" if gain_db else "")
    history = f"A=PCM,F={sound.rate},W={bits}{_MODES.get(sound.channels, '')},T={done}\r\n"
    words = {
        "description": _ascii(description),
        "originator": ORIGINATOR,
        "time_reference": str(first),
        "coding_history": history,
    }
    return replace(form, container_options={**form.container_options, "write_bext": "1"}, words=words)


def _ascii(text: str) -> str:
    """In the standard's letters: accents are taken off, what has no likeness becomes a question mark."""
    plain = "".join(each for each in unicodedata.normalize("NFKD", text) if not unicodedata.combining(each))
    shown = "".join(each if each.isprintable() else " " for each in plain)
    return shown.encode("ascii", "replace").decode()[:_LONGEST_DESCRIPTION]
