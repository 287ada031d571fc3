"""The whole way: a sound and lines of words in, a time for each line out."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import nullcontext
from pathlib import Path
from tempfile import TemporaryDirectory

from archive.audio.aligning.anchoring import anchors_of
from archive.audio.aligning.decoder import DICTIONARY, MODEL, SAMPLES
from archive.audio.aligning.gaps import gaps_between, pace_ms, unheard_lines, untold_gaps, untold_spans
from archive.audio.aligning.language_model import write_language_model
from archive.audio.aligning.lexicon import Lexicon, write_dictionary
from archive.audio.aligning.listening import Listening, listen
from archive.audio.aligning.model import Alignment, GivenLine, Heard, Progress, Stop
from archive.audio.aligning.placing import place_lines
from archive.audio.aligning.spans import Piece, pieces_of
from archive.audio.aligning.text import Text, text_of
from archive.audio.aligning.windows import windows_of
from archive.audio.aligning.workers import Asked, Workers, workers
from archive.audio.kept_work import KeptWork
from archive.errors import Fault, Unacceptable

# How the work is shared out: reading, hearing, laying.
_READ, _HEARD = 0.05, 0.85


def align(
    source: Path,
    lines: Sequence[GivenLine],
    lexicon: Lexicon | None = None,
    *,
    progress: Progress = lambda share, says: None,
    stop: Stop = lambda: False,
    folder: Path | None = None,
) -> Alignment:
    """Find when each line is said. With a folder, what is finished stays there and is not done again after a kill.

    Raises StoppedError when asked to stop, and Unacceptable when the text holds no words, or more lines than the sound
    has milliseconds. The folder holds what is said: keep it as closed as that, and throw it away afterwards.
    """
    words = lexicon or Lexicon()
    text = text_of(lines, words.known)
    if not text.words:
        raise _unacceptable("There are none", "Give the text of what is said")
    with nullcontext(str(folder)) if folder else TemporaryDirectory() as place:
        work = KeptWork(Path(place), source, [" ".join(line) for line in text.lines])
        progress(0.0, "Reading the sound.")
        sound = listen(source, work.folder / SAMPLES, stop)
        if len(lines) >= sound.duration_ms:
            raise _unacceptable(f"There are {len(lines)} lines", "Give a text that belongs to the sound")
        sounds = words.sounds(text.words)
        write_dictionary(sounds, work.folder / DICTIONARY)
        write_language_model(text.lines, work.folder / MODEL)
        progress(_READ, "Listening for the words.")
        try:
            with workers(work.folder) as listeners:
                heard = _hear(listeners, sound, work, progress, stop)
                return _aligned(listeners, text, heard, sound, progress, stop)
        finally:
            sound.samples.unlink(missing_ok=True)


def _unacceptable(found: str, allowed: str) -> Unacceptable:
    return Unacceptable([Fault("the words", 0, found, allowed)], "The transcript")


def _hear(listeners: Workers, sound: Listening, work: KeptWork, progress: Progress, stop: Stop) -> list[Heard]:
    """The words of all windows in order; those that were heard before a kill are taken as they are."""
    windows = windows_of(sound)
    done = {window: [Heard(*word) for word in words] for window, words in work.heard().items()}
    left = [Asked(at, window.start_ms, window.end_ms) for at, window in enumerate(windows) if window not in done]
    for asked, words in listeners.ask(left, stop):
        window = windows[asked.key]
        done[window] = words or []
        work.keep(window, [(word.word, word.start_ms, word.end_ms) for word in done[window]])
        progress(_READ + (_HEARD - _READ) * len(done) / len(windows), "Listening for the words.")
    return [word for window in windows for word in done[window]]


def _aligned(
    listeners: Workers, text: Text, heard: Sequence[Heard], sound: Listening, progress: Progress, stop: Stop
) -> Alignment:
    anchors = anchors_of(text, heard, sound.duration_ms)
    gaps, pace = gaps_between(text, anchors, sound), pace_ms(anchors)
    untold, unheard = untold_gaps(gaps, pace), unheard_lines(text, gaps, pace)
    silent = {word for at in unheard for word in range(text.bounds[at], text.bounds[at + 1])} - set(anchors)
    pieces = pieces_of(text, anchors, sound, untold=untold, left_out=silent)
    laid = _lay(listeners, text, pieces, progress, stop)
    placed = place_lines(text, anchors, laid, sound.duration_ms, frozenset(unheard))
    return Alignment(placed, untold_spans(untold, sound), unheard)


def _lay(listeners: Workers, text: Text, pieces: Sequence[Piece], progress: Progress, stop: Stop) -> dict[int, Heard]:
    """Each piece's words laid on its stretch; where they cannot be, there are none."""
    questions = [
        Asked(at, piece.start_ms, piece.end_ms, tuple(text.words[word] for word in piece.words))
        for at, piece in enumerate(pieces)
    ]
    laid: dict[int, Heard] = {}
    for done, (asked, words) in enumerate(listeners.ask(questions, stop), 1):
        laid.update(zip(pieces[asked.key].words, words or (), strict=False))
        progress(_HEARD + (1 - _HEARD) * done / len(questions), "Laying each line on its place.")
    return laid
