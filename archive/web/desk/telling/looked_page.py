"""A script looked over: its minutes, how it reads, and each sentence beside what it rests on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.errors import NotFound
from archive.objects.queries import demonstration, museum_object
from archive.processes.readability import Reading, reading_of
from archive.rights.decisions import Viewer
from archive.tours.telling.asked import Asked
from archive.tours.telling.judging import Ground, Judged, grave_count
from archive.tours.telling.queries import grounds_named, judged_script, texts_of
from archive.tours.telling.sentences import spoken_minutes, word_count
from archive.web.desk.telling.words import reading_words, warning_words


@dataclass(frozen=True)
class Said:
    """A sentence with the statements it rests on, and its warnings: what is wrong, what to do, whether it is grave."""

    text: str
    grounds: tuple[Ground, ...]
    warnings: tuple[tuple[str, str, bool], ...]


@dataclass(frozen=True)
class LookedPage:
    """A script looked over. `idle` are the statements that no sentence rests on."""

    said: tuple[Said, ...]
    idle: tuple[Ground, ...]
    words: int
    minutes: float
    reading: Reading | None
    grave: int

    @property
    def reads(self) -> str:
        """How easily it is followed."""
        return reading_words(self.reading.ease) if self.reading else ""

    @property
    def resting(self) -> int:
        """How many sentences rest on a statement."""
        return sum(bool(sentence.grounds) for sentence in self.said)


def looked_asked(session: Session, viewer: Viewer, asked: Asked, pace: float) -> LookedPage:
    """What was typed, looked over; statements and things that are closed or absent count for nothing."""
    grounds = grounds_named(session, viewer, asked.statements)
    judged = judged_script(asked.script, grounds, _shown(session, asked))
    return looked_page(judged, grounds.values(), asked.script, pace)


def looked_page(judged: Sequence[Judged], grounds: Iterable[Ground], script: str, pace: float) -> LookedPage:
    """A script that was judged."""
    told = {ground.ref for sentence in judged for ground in sentence.grounds}
    return LookedPage(
        said=tuple(
            Said(one.text, one.grounds, tuple((*warning_words(w), w.grave) for w in one.warnings)) for one in judged
        ),
        idle=tuple(sorted((ground for ground in grounds if ground.ref not in told), key=lambda ground: ground.ref)),
        words=word_count(script),
        minutes=spoken_minutes(script, pace),
        reading=reading_of(script),
        grave=grave_count(judged),
    )


def _shown(session: Session, asked: Asked) -> tuple[str, ...]:
    try:
        if asked.kind == "object" and asked.object:
            return texts_of(museum_object(session, asked.object), None)
        if asked.kind == "demonstration" and asked.demonstration:
            return texts_of(None, demonstration(session, asked.demonstration))
    except NotFound:
        return ()
    return ()
