"""Interviews out of their folders: agreement, closures, recordings, transcripts and ties; and the clips."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from archive.audio.probe import SoundFacts, probe
from archive.errors import CannotRead
from archive.exchange.columns import TIES
from archive.exchange.csv_tables import CsvRow, parse_table
from archive.exchange.cues import Cue
from archive.exchange.draft import PersonDraft
from archive.exchange.draft_voices import (
    ClosureDraft,
    InterviewDraft,
    RecordingDraft,
    SegmentDraft,
    SoundDraft,
    TieDraft,
)
from archive.exchange.faults import Place, shown
from archive.exchange.folder_files import FolderFiles
from archive.exchange.known import Known
from archive.exchange.reading_agreements import read_agreement
from archive.exchange.reading_processes import check_own_name
from archive.exchange.timecoded_text import parse_timecoded
from archive.exchange.toml_files import TomlTable, parse_toml
from archive.exchange.webvtt import parse_webvtt
from archive.interviews.model import TIE_KINDS
from archive.values.dates import parse_date
from archive.values.timecode import Span, format_timecode

NAME, SHORT = 300, 200
ALSO_ENDINGS = (".webm", ".mp3")
# A cue or closure may end this much after the sound does; a copy may differ from its master by a little more.
GRACE_MS = 250
COPY_GRACE_MS = 2000


def read_interviews(files: FolderFiles, known: Known, people: Sequence[PersonDraft]) -> tuple[InterviewDraft, ...]:
    """interviews/<ref>/"""
    names = {person.ref: person for person in people}
    drafts = []
    for folder in files.names("interviews"):
        name = f"interviews/{folder}/interview.toml"
        text = files.text(name)
        table = None if text is None else parse_toml(text, name, files.faults)
        if table is None:
            known.unsure |= {"interview", "recording"}
            continue
        drafts.append(_InterviewReader(files, known, f"interviews/{folder}", table, names).read())
        check_own_name(table, folder)
    return tuple(drafts)


class _InterviewReader:
    def __init__(
        self, files: FolderFiles, known: Known, folder: str, table: TomlTable, people: Mapping[str, PersonDraft]
    ) -> None:
        self.files, self.known, self.folder, self.table, self.people = files, known, folder, table, people
        self.closures: dict[str, list[ClosureDraft]] = {}
        self.voices: dict[str, str] = {}
        self.used: set[str] = set()

    def read(self) -> InterviewDraft:
        """The interview with everything in it."""
        table = self.table
        ref = table.ref("ref")
        self.known.add("interview", ref, table.place("ref"))
        narrators = self.known.ties("person", table, "narrators")
        interviewers = self.known.ties("person", table, "interviewers")
        if not narrators and not table.has("narrators"):
            table.missing("narrators")
        # A narrator may be labelled by name in a transcript; the reference is kept, since the name may be closed.
        self.voices = {self.people[p].name.casefold(): p for p in (*narrators, *interviewers) if p in self.people}
        for row in table.tables("closures"):
            self._closure(row)
        recordings = [recording for row in table.tables("recordings") if (recording := self._recording(row))]
        self._check_closures({recording.ref for recording in recordings})
        draft = InterviewDraft(
            origin=table.place("ref"),
            ref=ref,
            title=table.text("title", required=True, limit=NAME),
            held=table.uncertain_date("held"),
            place=table.text("place", limit=SHORT),
            language=table.language("language"),
            narrators=frozenset(narrators),
            interviewers=frozenset(interviewers),
            covers=table.uncertain_date("covers"),
            summary=table.text("summary"),
            voice_note=table.text("voice_note"),
            agreement=read_agreement(table),
            recordings=self._with_ties(recordings),
        )
        table.finish()
        return draft

    def _closure(self, row: TomlTable) -> None:
        recording, span = row.ref("recording"), row.span()
        reason, review = row.text("reason"), row.day("review")
        row.finish()
        if span is not None:
            closure = ClosureDraft(origin=row.place(), span=span, reason=reason, review_on=review)
            self.closures.setdefault(recording, []).append(closure)

    def _check_closures(self, recordings: set[str]) -> None:
        for recording, closures in self.closures.items():
            if recording not in recordings and "recording" not in self.known.unsure:
                found = f"a closure of {shown(recording)}, which is no recording of this interview"
                self.files.faults.add(closures[0].origin, found, "Name a recording of this file")

    def _recording(self, row: TomlTable) -> RecordingDraft | None:
        ref = row.ref("ref")
        self.known.add("recording", ref, row.place("ref"))
        master, facts = self._sound(row, "audio", row.file_name("audio", None))
        also = self._also(row, facts)
        transcript = row.file_name("transcript", (".vtt", ".txt"), required=False)
        draft = row.flag("draft", default=False)
        row.finish()
        if master is None or facts is None:
            self.known.unsure.add("recording")
            return None
        closures = sorted(self.closures.get(ref, ()), key=lambda closure: closure.span)
        for closure in closures:
            check_inside(closure.span, facts.duration_ms, closure.origin, "a closure", self.known)
        return RecordingDraft(
            origin=row.place("ref"),
            ref=ref,
            master=master,
            also=also,
            duration_ms=facts.duration_ms,
            codec=facts.codec,
            sample_rate=facts.sample_rate,
            channels=facts.channels,
            closures=tuple(closures),
            segments=self._segments(transcript, row.place("transcript"), facts.duration_ms) if transcript else (),
            draft=draft,
        )

    def _sound(self, row: TomlTable, key: str, name: str) -> tuple[SoundDraft | None, SoundFacts | None]:
        path = self.files.file(f"{self.folder}/{name}", row.place(key)) if name else None
        if path is None:
            return None, None
        if name in self.used:
            row.fault(key, f"the file {shown(name)} is used twice", "Each sound file belongs to one recording, once")
        self.used.add(name)
        try:
            facts = probe(path)
        except CannotRead as problem:
            self.files.faults.take(problem, f"{self.folder}/{name}")
            return None, None
        return SoundDraft(origin=row.place(key), name=name, path=path), facts

    def _also(self, row: TomlTable, master: SoundFacts | None) -> tuple[SoundDraft, ...]:
        copies = []
        for name in row.texts("also"):
            if not row.is_good_file("also", name, ALSO_ENDINGS):
                continue
            copy, facts = self._sound(row, "also", name)
            if copy is None or facts is None:
                continue
            copies.append(copy)
            if master and abs(facts.duration_ms - master.duration_ms) > COPY_GRACE_MS:
                seconds, own = facts.duration_ms / 1000, master.duration_ms / 1000
                found = f"{shown(name)} lasts {seconds:.1f} s, its master {own:.1f} s"
                row.fault("also", found, "A copy holds the same sound as its master")
        forms = [copy.name.lower().rpartition(".")[2] for copy in copies]
        if len(set(forms)) < len(forms):
            row.fault("also", "two copies of one form", "Give at most one WebM and one MP3 copy")
        return tuple(copies)

    def _segments(self, transcript: str, place: Place, duration_ms: int) -> tuple[SegmentDraft, ...]:
        name = f"{self.folder}/{transcript}"
        text = self.files.text(name, place)
        if text is None:
            return ()
        if transcript.lower().endswith(".vtt"):
            cues = parse_webvtt(text, name, self.files.faults)
        else:
            labels = {*self.people, *(person.name for person in self.people.values())}
            cues = parse_timecoded(text, name, duration_ms, self.files.faults, labels)
        return tuple(self._segment(cue, Place(name, cue.line), duration_ms) for cue in cues)

    def _segment(self, cue: Cue, place: Place, duration_ms: int) -> SegmentDraft:
        span = Span(cue.start_ms, cue.end_ms)
        check_inside(span, duration_ms, place, "a cue", self.known)
        label = cue.speaker
        if len(label) > SHORT:
            self.files.faults.add(place, f"a speaker's label of {len(label)} letters", f"It may have up to {SHORT}")
        speaker = label if label in self.people else self.voices.get(label.casefold(), "")
        return SegmentDraft(origin=place, span=span, speaker=speaker, label="" if speaker else label, text=cue.text)

    def _with_ties(self, recordings: list[RecordingDraft]) -> tuple[RecordingDraft, ...]:
        name = f"{self.folder}/ties.csv"
        if not self.files.has(name):
            return tuple(recordings)
        text = self.files.text(name)
        rows = [] if text is None else parse_table(text, name, TIES, self.files.faults)
        by_ref = {recording.ref: recording for recording in recordings}
        ties: dict[str, list[tuple[Span, TieDraft]]] = {ref: [] for ref in by_ref}
        for row in rows:
            recording, span, tie = row.ref("recording"), row.span(), self._tie(row)
            if recording in by_ref and span is not None and tie is not None:
                check_inside(span, by_ref[recording].duration_ms, row.place(), "a tie", self.known)
                if not any(segment.span.overlaps(span) for segment in by_ref[recording].segments):
                    row.fault("start", "no words are spoken then", "A tie lies on at least one segment")
                ties[recording].append((span, tie))
            elif recording and recording not in by_ref and "recording" not in self.known.unsure:
                row.fault("recording", f"{shown(recording)} is no recording of this interview", "Name one that is")
        return tuple(tied(recording, ties[recording.ref]) for recording in recordings)

    def _tie(self, row: CsvRow) -> TieDraft | None:
        kind = row.choice("kind", TIE_KINDS)
        state = row.choice("state", ("accepted", "proposed"), default="accepted")
        made_by, made_on = row.text("made_by", limit=120), row.day("made_on")
        if kind == "period":
            try:
                ref = parse_date(row.text("ref", required=True, limit=64) or "1900").text
            except ValueError as problem:
                found, _, allowed = str(problem).partition(". ")
                row.fault("ref", found, allowed)
                return None
        else:
            ref = self.known.tie(kind, row, "ref")
        return TieDraft(kind, ref, state, made_by, made_on) if ref else None


def tied(recording: RecordingDraft, ties: Iterable[tuple[Span, TieDraft]]) -> RecordingDraft:
    """The recording with each tie on every segment that overlaps its span."""
    ordered = sorted(ties, key=lambda entry: entry[0])
    segments = []
    for segment in recording.segments:
        own = frozenset(tie for span, tie in ordered if span.overlaps(segment.span))
        segments.append(replace(segment, ties=own))
    return replace(recording, segments=tuple(segments))


def check_inside(span: Span, duration_ms: int, place: Place, what: str, known: Known) -> None:
    """Tell what reaches beyond the end of its recording."""
    if span.end_ms > duration_ms + GRACE_MS:
        found = f"{what} from {format_timecode(span.start_ms)} to {format_timecode(span.end_ms)}"
        known.faults.add(place, found, f"The recording ends at {format_timecode(duration_ms)}")
