"""What the pages on typed transcripts show, as frozen records."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from flask import current_app
from sqlalchemy.orm import Session
from werkzeug.exceptions import HTTPException

from archive.exchange.typed.model import LeftOut, TypedTranscript, Way
from archive.exchange.typed.placing import place
from archive.exchange.typed.reading import FORMS, LARGEST_BYTES, read_typed
from archive.exchange.typed.understanding import understand
from archive.interviews.closing import masked_spans
from archive.interviews.model import Recording, TranscriptFile
from archive.interviews.names import shown_names
from archive.interviews.queries import people
from archive.interviews.transcripts import typed_queries
from archive.interviews.transcripts.lines import Line
from archive.people.model import Person
from archive.rights.decisions import Viewer
from archive.web.workroom.words.aside import Aside, Chosen
from archive.web.workroom.words.choices import AS_WRITTEN, MOST_LABELS, NOBODY, Known, options_of, people_of

MOST_SHOWN, MOST_OUT = 150, 40


@dataclass(frozen=True)
class ChoosePage:
    """The form that brings a file, with those that were brought before; `kept` is the version just made."""

    recording: Recording
    files: Sequence[TranscriptFile]
    lines: int
    largest_mb: int = LARGEST_BYTES >> 20
    kept: int | None = None
    doubtful: int = 0
    align: str = ""
    bench: str = ""
    faults: Mapping[str, str] = field(default_factory=dict)
    forms: Mapping[str, str] = field(default_factory=lambda: FORMS)


@dataclass(frozen=True)
class LineShown:
    """One line as it would be kept, and what the file wrote for it."""

    line: Line
    who: str
    note: str
    where: str


@dataclass(frozen=True)
class LabelShown:
    """A label of the file: how many lines it has, and whom it stands for."""

    number: int
    label: str
    lines: int
    chosen: str


@dataclass(frozen=True)
class LookPage:
    """A file as it is understood, before anything is kept."""

    recording: Recording
    key: int
    file_name: str
    form: str
    told: Sequence[str]
    way: Way
    lines: Sequence[LineShown]
    more: int
    guessed: int
    total: int
    hidden: bool
    left_out: Sequence[tuple[str, Sequence[LeftOut], int]]
    labels: Sequence[LabelShown]
    own_people: Sequence[tuple[str, str]]
    other_people: Sequence[tuple[str, str]]
    columns: Sequence[tuple[str, str]]
    given: Mapping[str, str]
    replaces: int
    faults: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Understood:
    """A file laid aside, as it is understood with what was chosen."""

    typed: TypedTranscript
    lines: Sequence[Line]
    people: Mapping[str, str]


def understood(aside: Aside, content: bytes, recording: Recording, known: Known) -> Understood:
    """Read the file anew and understand it; the same bytes and choices always give the same."""
    raw = read_typed(content, aside.file_name)
    typed = understand(raw, options_of(aside.chosen, known, recording.duration_ms))
    meant = people_of(typed.labels, aside.chosen, known)
    closed = masked_spans(recording)
    return Understood(typed, place(typed.lines, recording.duration_ms, closed=closed, people=meant), meant)


def known_people(session: Session, viewer: Viewer, recording: Recording) -> Known:
    """Those of the interview, and all others whom the viewer may know of, under the names that are shown."""
    own = (*recording.interview.narrators, *recording.interview.interviewers)
    names = shown_names(session, viewer)
    mine = {person.ref for person in own}
    others = [each for each in people(session, viewer) if each.ref not in mine and each.kind == "person"]
    return Known(
        recording.interview.narrators,
        recording.interview.interviewers,
        {each.ref: names.get(each.id, "") or each.ref for each in others},
    )


def choose_page(
    session: Session, recording: Recording, *, kept: int | None = None, faults: Mapping[str, str] | None = None
) -> ChoosePage:
    """The form, and what follows what was just kept."""
    here = f"/workroom/recordings/{recording.ref}"
    return ChoosePage(
        recording=recording,
        files=typed_queries.typed_files(session, recording),
        lines=len(recording.segments),
        kept=kept,
        doubtful=sum(1 for segment in recording.segments if segment.doubtful),
        align=_there(f"{here}/align"),
        bench=_there(f"{here}/bench"),
        faults=faults or {},
    )


def look_page(
    aside: Aside,
    found: Understood,
    recording: Recording,
    known: Known,
    *,
    whole: bool,
    faults: Mapping[str, str] | None = None,
) -> LookPage:
    """The preview; `whole` shows every line and everything left out."""
    own = (*known.narrators, *known.interviewers)
    names = {person.ref: _called(person) for person in own} | dict(known.others)
    lines = [
        LineShown(line, names.get(line.speaker) or line.label, typed.note, typed.where)
        for line, typed in zip(found.lines, found.typed.lines, strict=True)
    ]
    shown = lines if whole else lines[:MOST_SHOWN]
    guessed = sum(1 for line in found.lines if line.doubtful)
    return LookPage(
        recording=recording,
        key=aside.key,
        file_name=aside.file_name,
        form=FORMS[found.typed.form],
        told=found.typed.told,
        way=found.typed.way,
        lines=shown,
        more=len(lines) - len(shown),
        guessed=guessed,
        total=len(lines),
        hidden=bool(guessed and recording.closures),
        left_out=_by_reason(found.typed.left_out, whole=whole),
        labels=_labels(found, aside.chosen),
        own_people=_own(known),
        other_people=sorted(((ref, name) for ref, name in known.others.items()), key=lambda pair: pair[1]),
        columns=[(str(at), name) for at, name in enumerate(found.typed.columns)],
        given={"split": "yes"} | dict(aside.chosen.how),
        replaces=len(recording.segments),
        faults=faults or {},
    )


def _own(known: Known) -> list[tuple[str, str]]:
    return [
        (person.ref, f"{_called(person)}, {role}")
        for role, people in (("narrator", known.narrators), ("interviewer", known.interviewers))
        for person in people
    ]


def _called(person: Person) -> str:
    return person.called if person.unnamed else person.name


def _labels(found: Understood, chosen: Chosen) -> list[LabelShown]:
    refused = [label for label, who in chosen.names.items() if who == NOBODY and label not in found.typed.labels]
    counts = dict.fromkeys((*found.typed.labels, *refused), 0)
    for line in found.typed.lines:
        if line.speaker:
            counts[line.speaker] += 1
    return [
        LabelShown(number, label, lines, NOBODY if label in refused else found.people.get(label, AS_WRITTEN))
        for number, (label, lines) in enumerate(list(counts.items())[:MOST_LABELS])
    ]


def _by_reason(left_out: Sequence[LeftOut], *, whole: bool) -> list[tuple[str, Sequence[LeftOut], int]]:
    reasons: dict[str, list[LeftOut]] = {}
    for each in left_out:
        reasons.setdefault(each.why, []).append(each)
    most = len(left_out) if whole else MOST_OUT
    return [(why, every[:most], len(every)) for why, every in reasons.items()]


def _there(path: str) -> str:
    """The path, if some page stands there."""
    try:
        current_app.url_map.bind("here").match(path)
    except HTTPException:
        return ""
    return path
