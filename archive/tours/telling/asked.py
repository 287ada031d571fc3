"""What somebody asks a telling to be: the plain fields of its form, their faults, and a stamp of their state. Pure."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass

from archive.errors import Fault, Unacceptable
from archive.tours.model import AUDIENCES, DEPTHS, TELLING_KINDS, THEMES, Telling
from archive.values.identifiers import is_language_tag

LONGEST_TITLE, LONGEST_SCRIPT = 300, 20_000
MOST_MINUTES = 60.0
# What no file of a collection may hold.
_FORBIDDEN = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")
_TARGETS = {"clip": "clip", "object": "object", "demonstration": "demonstration"}


@dataclass(frozen=True)
class Asked:
    """The fields as they were typed; references are not looked up yet. `minutes` is text, for it may be no number."""

    station: str = ""
    kind: str = "talk"
    title: str = ""
    minutes: str = ""
    script: str = ""
    clip: str = ""
    object: str = ""
    demonstration: str = ""
    depth: str = "glance"
    language: str = ""
    themes: tuple[str, ...] = ()
    audiences: tuple[str, ...] = ()
    statements: tuple[str, ...] = ()

    @property
    def target(self) -> str:
        """The reference of the clip, object or demonstration that its kind needs."""
        return str(getattr(self, _TARGETS[self.kind])) if self.kind in _TARGETS else ""


def asked_in(texts: Mapping[str, str], lists: Mapping[str, Sequence[str]]) -> Asked:
    """The fields of a form: single ones, and those of which several may be chosen."""
    single = {name: texts.get(name, "").strip() for name in _SINGLE}
    several = {name: tuple(dict.fromkeys(lists.get(name, ()))) for name in _SEVERAL}
    script = single["script"].replace("\r\n", "\n")
    return Asked(**{**single, **several, "title": " ".join(single["title"].split()), "script": script})  # type: ignore[arg-type]


_SINGLE = (
    "station", "kind", "title", "minutes", "script", "clip", "object", "demonstration", "depth", "language",
)  # fmt: skip
_SEVERAL = ("themes", "audiences", "statements")


def asked_like(telling: Telling) -> Asked:
    """A telling as its form shows it."""
    return Asked(
        station=telling.station.ref,
        kind=telling.kind,
        title=telling.title,
        minutes=f"{telling.minutes:.1f}",
        script=telling.script,
        clip=telling.clip.ref if telling.clip else "",
        object=telling.object.ref if telling.object else "",
        demonstration=telling.demonstration.ref if telling.demonstration else "",
        depth=telling.depth,
        language=telling.language,
        themes=tuple(telling.themes),
        audiences=tuple(telling.audiences),
        statements=tuple(statement.ref for statement in telling.statements),
    )


def stamp_of(telling: Telling) -> str:
    """A short mark that changes whenever the telling does, so that a form can tell that it is out of date."""
    state = json.dumps([asdict(asked_like(telling)), telling.withdrawn], sort_keys=True)
    return hashlib.sha256(state.encode()).hexdigest()[:16]


def check(asked: Asked) -> None:
    """Raise every fault of the fields by themselves at once."""
    faults = [Fault(*fault) for fault in _faults(asked)]
    if faults:
        raise Unacceptable(faults, "This telling")


def typed_minutes(asked: Asked) -> float | None:
    """The minutes that were typed, to one decimal; None where they are no number that can be taken."""
    text = asked.minutes.replace(",", ".").replace("½", ".5").removesuffix("min").strip()
    if not text or not text.isascii() or not text.replace(".", "", 1).isdigit():
        return None
    minutes = int(float(text) * 10 + 0.5) / 10 if len(text) < 9 else 0.0
    return minutes if 0 < minutes <= MOST_MINUTES else None


def _faults(asked: Asked) -> Iterator[tuple[str, int, str, str]]:
    if asked.kind not in TELLING_KINDS:
        yield "kind", 0, "No kind is chosen", "Choose one of the five"
    if not asked.station:
        yield "station", 0, "No station is chosen", "Choose where it is told"
    if not 0 < len(asked.title) <= LONGEST_TITLE:
        yield "title", 0, f"The title has {len(asked.title)} letters", f"Give it one of 1 to {LONGEST_TITLE} letters"
    yield from _script_faults(asked)
    if asked.kind in _TARGETS and not asked.target:
        yield asked.kind, 0, f"No {asked.kind} is chosen", f"Choose the {asked.kind}"
    if asked.kind in ("object", "question", "demonstration") and typed_minutes(asked) is None:
        found = f"“{asked.minutes[:20]}” is not a number of minutes" if asked.minutes else "No minutes are given"
        yield "minutes", 0, found, f"Write a number from 0.1 to {MOST_MINUTES:g}, such as 2.5"
    yield from _choice_faults(asked)


def _script_faults(asked: Asked) -> Iterator[tuple[str, int, str, str]]:
    if asked.kind in ("talk", "question") and not asked.script.strip():
        yield "script", 0, "There are no words yet", "Write what is said"
    if _FORBIDDEN.search(asked.script + asked.title):
        yield "script", 0, "There is a sign in it that cannot be printed", "Type the words anew instead of pasting them"
    if len(asked.script) > LONGEST_SCRIPT:
        yield "script", 0, f"The words have {len(asked.script)} letters", f"Keep them under {LONGEST_SCRIPT}"


def _choice_faults(asked: Asked) -> Iterator[tuple[str, int, str, str]]:
    for field, allowed in (("themes", THEMES), ("audiences", AUDIENCES)):
        chosen = getattr(asked, field)
        if not chosen:
            yield field, 0, "Nothing is chosen", "Choose at least one"
        for word in chosen:
            if word not in allowed:
                yield field, 0, f"“{word[:30]}” is not one of them", "Choose from the list"
    if asked.depth not in DEPTHS:
        yield "depth", 0, "No depth is chosen", "Choose one of the three"
    if not is_language_tag(asked.language):
        yield "language", 0, f"“{asked.language[:35]}” is not a language tag", "Write one such as en-GB"
