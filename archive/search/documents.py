"""What is indexed of each kind of record. Segments and clips that overlap a closure are not, nor is a guarded name."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from sqlalchemy.orm import Session

from archive.interviews.model import Clip, Interview
from archive.objects.model import MuseumObject
from archive.people.model import Person
from archive.plan.model import Station
from archive.processes.model import Hazard, Process
from archive.rights.naming import without_name
from archive.search import indexing_queries as queries
from archive.search.document import OPEN, Document
from archive.search.indexing_queries import IndexedRow, Keys, TiedTo
from archive.values.dates import UncertainDate

_UNSAID = "…"


@dataclass(frozen=True)
class Only:
    """Which records to index anew: keys of interviews with all that is in them, and of records of other kinds."""

    interviews: frozenset[int] = frozenset()
    others: Mapping[str, frozenset[int]] = field(default_factory=dict)

    def keys(self, kind: str) -> Collection[int]:
        """The keys of one kind."""
        return self.others.get(kind, frozenset())


def documents(session: Session, only: Only | None = None) -> Iterator[Document]:
    """The documents of the whole collection, or of some records."""
    yield from _spoken(session, None if only is None else only.interviews)
    for kind, make in _MAKERS.items():
        yield from make(session, None if only is None else only.keys(kind))


def _spoken(session: Session, keys: Keys) -> Iterator[Document]:
    """Segments and clips."""
    if keys is not None and not keys:
        return
    guarded = queries.guarded(session)
    narrators = queries.narrators(session)
    named = {person.id: person for person in queries.people(session)}
    interviews = {
        interview.id: _Told(interview, [person for person in interview.narrators if person.id in guarded], narrators)
        for interview in queries.interviews(session, keys)
    }
    by_segment, by_clip = queries.ties(session, keys)
    nothing = TiedTo()
    for row in queries.segments(session, keys):
        told = interviews[row.interview_id]
        speaker = named.get(row.speaker_id or 0) if row.speaker_id not in told.elsewhere else None
        yield _segment(row, told, by_segment.get(row.id, nothing), speaker, guarded)
    for clip in queries.clips(session, keys):
        yield _clip(clip, interviews[clip.recording.interview_id], by_clip.get(clip.id, nothing))


class _Told:
    """What all segments of one interview share."""

    def __init__(self, interview: Interview, guarded: list[Person], narrators: set[int]) -> None:
        self.ref = interview.ref
        # Whether these may be known of hangs on other agreements than this interview's, so they are not found here.
        self.elsewhere = narrators - {person.id for person in interview.narrators}
        self.access = f"i{interview.id}"
        self.decades = _decades([interview.covers])
        self._guarded = guarded

    def without_names(self, text: str) -> str:
        """The text without the names of narrators who are not named for every purpose."""
        for person in self._guarded:
            text = without_name(text, person, _UNSAID)
        return text


def _segment(row: IndexedRow, told: _Told, tied: TiedTo, speaker: Person | None, guarded: set[int]) -> Document:
    refs = _refs(told, tied)
    names = dict(tied.names)
    if speaker is not None:
        refs["speaker"] = [speaker.ref]
        names["speaker"] = [] if speaker.id in guarded else [speaker.name]
    return Document("segment", row.id, told.access, told.without_names(row.text), refs=refs, names=_named(names))


def _clip(clip: Clip, told: _Told, tied: TiedTo) -> Document:
    return Document(
        "clip",
        clip.id,
        f"c{clip.id}",
        told.without_names(f"{clip.summary} {clip.content_advice}"),
        told.without_names(clip.title),
        _refs(told, tied),
        _named(tied.names),
    )


def _refs(told: _Told, tied: TiedTo) -> dict[str, list[str]]:
    """The decades are those it is said to speak of, else those of the whole interview."""
    return {**tied.refs, "interview": [told.ref], "decade": _decades(tied.periods) or told.decades}


def _objects(session: Session, keys: Keys) -> Iterator[Document]:
    for record in queries.objects(session, keys):
        processes = [tie.process for tie in record.process_ties]
        stations = [record.station] if record.station else []
        yield Document(
            "object",
            record.id,
            OPEN,
            _object_text(record),
            record.name,
            {
                "object": [record.ref],
                "station": [station.ref for station in stations],
                "process": [process.ref for process in processes],
                "decade": _decades([record.made]),
            },
            {
                "object": [record.name],
                "station": [station.name for station in stations],
                "process": [process.name for process in processes],
            },
        )


def _object_text(record: MuseumObject) -> str:
    maker = record.maker.name if record.maker is not None and record.maker.kind == "firm" else ""
    pictures = (picture.text for picture in record.pictures)
    return _lines(record.ref, record.description, record.material, record.dimensions, maker, *pictures)


def _processes(session: Session, keys: Keys) -> Iterator[Document]:
    for record in queries.processes(session, keys):
        yield Document(
            "process",
            record.id,
            OPEN,
            _process_text(record),
            record.name,
            {
                "process": [record.ref],
                "station": [station.ref for station in record.stations],
                "term": [term.ref for term in record.terms],
            },
            {"process": [record.name], "station": [station.name for station in record.stations]},
        )


def _process_text(record: Process) -> str:
    return _lines(record.summary, *(section.body for section in record.sections))


def _hazards(session: Session, keys: Keys) -> Iterator[Document]:
    for record in queries.hazards(session, keys):
        refs = {"process": [process.ref for process in record.processes]}
        names = {"process": [process.name for process in record.processes]}
        yield Document("hazard", record.id, OPEN, _hazard_text(record), record.name, refs, names)


def _hazard_text(record: Hazard) -> str:
    controls = (control.text for control in record.controls)
    return _lines(record.summary, record.then, record.now, record.limits, record.cautions, *controls)


def _people(session: Session, keys: Keys) -> Iterator[Document]:
    """A person; under the name only where every agreement gives it, and then with trade and note."""
    guarded = queries.guarded(session)
    for record in queries.people(session, keys):
        hidden = record.id in guarded
        title = record.called if hidden else record.name
        text = "" if hidden else _lines(record.trade, record.note)
        yield Document("person", record.id, f"p{record.id}", text, title)


def _terms(session: Session, keys: Keys) -> Iterator[Document]:
    for record in queries.terms(session, keys):
        ways = (record.preferred, *record.other_words)
        text = _lines(*record.other_words, record.meaning)
        yield Document("term", record.id, OPEN, text, record.preferred, {"term": [record.ref]}, ways=ways)


def _statements(session: Session, keys: Keys) -> Iterator[Document]:
    for record in queries.statements(session, keys):
        about: dict[str, Sequence[MuseumObject | Process | Station]] = {
            "station": record.stations,
            "process": record.processes,
            "object": record.objects,
        }
        refs = {kind: [target.ref for target in targets] for kind, targets in about.items()}
        names = {kind: [target.name for target in targets] for kind, targets in about.items()}
        yield Document("statement", record.id, f"s{record.id}", record.text, "", refs, names)


_MAKERS = {
    "object": _objects,
    "process": _processes,
    "hazard": _hazards,
    "person": _people,
    "term": _terms,
    "statement": _statements,
}


def _decades(dates: Iterable[UncertainDate | None]) -> list[str]:
    return sorted({str(decade) for date in dates if date is not None for decade in date.decades})


def _named(names: dict[str, list[str]]) -> dict[str, list[str]]:
    """Terms have no field of names: their words are in the thesaurus."""
    return {kind: held for kind, held in names.items() if kind != "term" and held}


def _lines(*texts: str) -> str:
    return "\n".join(text for text in texts if text)
