"""What is kept of interviews, recordings, segments, clips and their ties. Times are whole milliseconds."""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy import BigInteger, CheckConstraint, ForeignKey, Index, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from archive.objects.model import MuseumObject
from archive.people.model import Person
from archive.plan.model import Station
from archive.processes.model import Hazard, Process
from archive.rights.model import Agreement, Closure
from archive.store.base import Base, Key, Name, Ref, link, tie_table, utc_now
from archive.terms.model import Term
from archive.values.dates import UncertainDate
from archive.values.timecode import Span

TIE_KINDS = ("object", "process", "station", "person", "term", "period")


interview_narrator = tie_table("interview_narrator", "interview", "person")
interview_interviewer = tie_table("interview_interviewer", "interview", "person")
clip_hazard = tie_table("clip_hazard", "clip", "hazard")


class Interview(Base):
    """A session with a narrator, with the agreement that governs all of it."""

    __tablename__ = "interview"

    id: Mapped[Key]
    ref: Mapped[Ref]
    title: Mapped[Name]
    held: Mapped[UncertainDate | None]
    place: Mapped[str] = mapped_column(String(200), default="")
    language: Mapped[str] = mapped_column(String(35))
    covers: Mapped[UncertainDate | None]
    summary: Mapped[str] = mapped_column(Text, default="")
    voice_note: Mapped[str] = mapped_column(Text, default="")

    narrators: Mapped[list[Person]] = relationship(secondary=interview_narrator, order_by=Person.ref)
    interviewers: Mapped[list[Person]] = relationship(secondary=interview_interviewer, order_by=Person.ref)
    agreement: Mapped[Agreement | None] = relationship(
        cascade="all, delete-orphan", single_parent=True, passive_deletes=True
    )
    recordings: Mapped[list[Recording]] = relationship(
        back_populates="interview",
        cascade="all, delete-orphan",
        order_by="Recording.position",
        passive_deletes=True,
    )


class Recording(Base):
    """One audio file of an interview: the master by checksum, and the renditions made from it.

    `facts` are what the one pass over the master found (levels in LUFS, LU and dBTP, shares 0 to 1, pauses in
    milliseconds, the `bext` fields); `damage` says in words where it broke off, "" when it is whole; `likeness` is the
    fingerprint of its sound. A transcript of the state "draft" was made by a machine, and no person has checked it yet.
    """

    __tablename__ = "recording"
    __table_args__ = (
        CheckConstraint("duration_ms > 0", name="duration"),
        CheckConstraint("transcript_state in ('none', 'draft', 'checked')", name="transcript_state"),
    )

    id: Mapped[Key]
    ref: Mapped[Ref]
    interview_id: Mapped[int] = link("interview")
    position: Mapped[int]
    master_name: Mapped[str] = mapped_column(String(120))
    master_sha256: Mapped[str] = mapped_column(ForeignKey("kept_file.sha256"))
    duration_ms: Mapped[int]
    codec: Mapped[str] = mapped_column(String(40))
    sample_rate: Mapped[int]
    channels: Mapped[int]
    facts: Mapped[dict[str, Any]] = mapped_column(default=dict)
    damage: Mapped[str] = mapped_column(Text, default="")
    # Two hundred kilobytes for two hours, which few ever ask for.
    likeness: Mapped[list[Any]] = mapped_column(default=list, deferred=True)
    transcript_state: Mapped[str] = mapped_column(String(10), default="checked")
    transcript_version: Mapped[int] = mapped_column(default=0)

    interview: Mapped[Interview] = relationship(back_populates="recordings")
    renditions: Mapped[list[Rendition]] = relationship(
        cascade="all, delete-orphan", order_by="Rendition.id", passive_deletes=True
    )
    closures: Mapped[list[Closure]] = relationship(
        cascade="all, delete-orphan", order_by=Closure.start_ms, passive_deletes=True
    )
    segments: Mapped[list[Segment]] = relationship(
        back_populates="recording",
        cascade="all, delete-orphan",
        order_by="Segment.position",
        passive_deletes=True,
    )
    clips: Mapped[list[Clip]] = relationship(
        back_populates="recording",
        cascade="all, delete-orphan",
        order_by="Clip.start_ms",
        passive_deletes=True,
    )

    @property
    def is_draft(self) -> bool:
        """Whether nobody has checked its words: wherever they are read, that is said."""
        return self.transcript_state == "draft"


class Rendition(Base):
    """A copy to listen to. `closed` is the fingerprint of the closures that are masked in it, "" for none.

    Only a rendition whose fingerprint is that of the recording's present closures may be served.
    `kind` is "access" (a copy for browsers), "supplied" (came in the folder beside the master) or
    "waveform" (levels for drawing).
    """

    __tablename__ = "rendition"
    __table_args__ = (
        UniqueConstraint("recording_id", "form", "closed"),
        CheckConstraint("kind in ('access', 'supplied', 'waveform')", name="kind"),
        CheckConstraint("form in ('webm', 'mp3', 'waveform')", name="form"),
    )

    id: Mapped[Key]
    recording_id: Mapped[int] = link("recording")
    kind: Mapped[str] = mapped_column(String(10))
    form: Mapped[str] = mapped_column(String(10))
    file_name: Mapped[str] = mapped_column(String(120), default="")
    closed: Mapped[str] = mapped_column(String(64), default="")
    sha256: Mapped[str] = mapped_column(ForeignKey("kept_file.sha256"))


class Segment(Base):
    """A stretch of a transcript: who said what, from when to when.

    `confidence`, 0 to 1, is how sure the machine was that timed or wrote it; None where a person did. What is
    `doubtful` waits for a person to look at it.
    """

    __tablename__ = "segment"
    __table_args__ = (
        UniqueConstraint("recording_id", "position"),
        CheckConstraint("0 <= start_ms and start_ms < end_ms", name="span"),
        CheckConstraint("confidence is null or (confidence >= 0 and confidence <= 1)", name="confidence"),
        Index("ix_segment_recording_id_start_ms", "recording_id", "start_ms"),
    )

    id: Mapped[Key]
    recording_id: Mapped[int] = mapped_column(ForeignKey("recording.id", ondelete="CASCADE"))
    position: Mapped[int]
    start_ms: Mapped[int]
    end_ms: Mapped[int]
    speaker_id: Mapped[int | None] = mapped_column(ForeignKey("person.id", ondelete="SET NULL"), index=True)
    speaker_label: Mapped[str] = mapped_column(String(200), default="")
    text: Mapped[str] = mapped_column(Text)
    confidence: Mapped[float | None]
    doubtful: Mapped[bool] = mapped_column(default=False)

    recording: Mapped[Recording] = relationship(back_populates="segments")
    speaker: Mapped[Person | None] = relationship()
    ties: Mapped[list[Tie]] = relationship(
        back_populates="segment", cascade="all, delete-orphan", order_by="Tie.id", passive_deletes=True
    )

    @property
    def span(self) -> Span:
        """From when to when."""
        return Span(self.start_ms, self.end_ms)


class Clip(Base):
    """A named excerpt of one recording."""

    __tablename__ = "clip"
    __table_args__ = (CheckConstraint("0 <= start_ms and start_ms < end_ms", name="span"),)

    id: Mapped[Key]
    ref: Mapped[Ref]
    recording_id: Mapped[int] = link("recording")
    start_ms: Mapped[int]
    end_ms: Mapped[int]
    title: Mapped[Name]
    summary: Mapped[str] = mapped_column(Text, default="")
    content_advice: Mapped[str] = mapped_column(Text, default="")

    recording: Mapped[Recording] = relationship(back_populates="clips")
    ties: Mapped[list[Tie]] = relationship(
        back_populates="clip", cascade="all, delete-orphan", order_by="Tie.id", passive_deletes=True
    )
    hazards: Mapped[list[Hazard]] = relationship(secondary=clip_hazard, order_by=Hazard.ref)

    @property
    def span(self) -> Span:
        """From when to when."""
        return Span(self.start_ms, self.end_ms)


class Tie(Base):
    """What a segment or clip speaks of: exactly one record or period; who said so, and whether accepted."""

    __tablename__ = "tie"
    __table_args__ = (
        CheckConstraint("(segment_id is null) <> (clip_id is null)", name="one_owner"),
        CheckConstraint(
            "(case when object_id is null then 0 else 1 end) + (case when process_id is null then 0 else 1 end)"
            " + (case when station_id is null then 0 else 1 end) + (case when person_id is null then 0 else 1 end)"
            " + (case when term_id is null then 0 else 1 end) + (case when period is null then 0 else 1 end) = 1",
            name="one_target",
        ),
        CheckConstraint("state in ('accepted', 'proposed')", name="state"),
    )

    id: Mapped[Key]
    segment_id: Mapped[int | None] = link("segment")
    clip_id: Mapped[int | None] = link("clip")
    object_id: Mapped[int | None] = link("object")
    process_id: Mapped[int | None] = link("process")
    station_id: Mapped[int | None] = link("station")
    person_id: Mapped[int | None] = link("person")
    term_id: Mapped[int | None] = link("term")
    period: Mapped[UncertainDate | None]
    state: Mapped[str] = mapped_column(String(10), default="accepted")
    made_by: Mapped[str] = mapped_column(String(120), default="")
    made_on: Mapped[dt.date | None]

    segment: Mapped[Segment | None] = relationship(back_populates="ties")
    clip: Mapped[Clip | None] = relationship(back_populates="ties")
    object: Mapped[MuseumObject | None] = relationship()
    process: Mapped[Process | None] = relationship()
    station: Mapped[Station | None] = relationship()
    person: Mapped[Person | None] = relationship()
    term: Mapped[Term | None] = relationship()

    @property
    def kind(self) -> str:
        """Which of TIE_KINDS it is."""
        return next(kind for kind in TIE_KINDS if self._target(kind) is not None)

    @property
    def target(self) -> Any:
        """The record, or the uncertain date of a period."""
        return self._target(self.kind)

    def _target(self, kind: str) -> Any:
        return getattr(self, kind)


class TranscriptVersion(Base):
    """A transcript as it stood after one deed; every version is kept, to compare and to go back to.

    A line is [start_ms, end_ms, speaker's ref or "", label, text, confidence or null, doubtful].
    """

    __tablename__ = "transcript_version"
    __table_args__ = (UniqueConstraint("recording_id", "number"),)

    id: Mapped[Key]
    recording_id: Mapped[int] = link("recording")
    number: Mapped[int]
    made_at: Mapped[dt.datetime] = mapped_column(default=utc_now)
    who: Mapped[str] = mapped_column(String(120))
    said: Mapped[str] = mapped_column(String(300))
    lines: Mapped[list[Any]]


class TranscriptFile(Base):
    """A transcript as it was typed and brought: the file itself, untouched."""

    __tablename__ = "transcript_file"

    id: Mapped[Key]
    recording_id: Mapped[int] = link("recording")
    file_name: Mapped[str] = mapped_column(String(200))
    form: Mapped[str] = mapped_column(String(20))
    sha256: Mapped[str] = mapped_column(ForeignKey("kept_file.sha256"))
    taken_at: Mapped[dt.datetime] = mapped_column(default=utc_now)
    who: Mapped[str] = mapped_column(String(120))


class Upload(Base):
    """A file on its way in: how much of it has arrived. Its bytes lie aside until the recording is taken in."""

    __tablename__ = "upload"
    __table_args__ = (
        CheckConstraint("0 <= received and received <= size", name="received"),
        CheckConstraint("state in ('arriving', 'arrived', 'taken in', 'refused', 'dropped')", name="state"),
    )

    id: Mapped[Key]
    key: Mapped[str] = mapped_column(String(32), unique=True)
    interview: Mapped[str] = mapped_column(String(64), index=True)
    file_name: Mapped[str] = mapped_column(String(200))
    size: Mapped[int] = mapped_column(BigInteger)
    received: Mapped[int] = mapped_column(BigInteger, default=0)
    who: Mapped[str] = mapped_column(String(120))
    state: Mapped[str] = mapped_column(String(10), default="arriving")
    says: Mapped[str] = mapped_column(Text, default="")
    job: Mapped[str] = mapped_column(String(32), default="")
    begun_at: Mapped[dt.datetime] = mapped_column(default=utc_now)


class CutClip(Base):
    """A clip's own sound in one form, kept by what it was made from: `made_from` is a fingerprint of master, span,
    closures, gain and fades, so that a copy made for other closures is never served.
    """

    __tablename__ = "cut_clip"
    __table_args__ = (UniqueConstraint("made_from", "form"),)

    id: Mapped[Key]
    recording_id: Mapped[int] = link("recording")
    made_from: Mapped[str] = mapped_column(String(64))
    form: Mapped[str] = mapped_column(String(10))
    sha256: Mapped[str] = mapped_column(ForeignKey("kept_file.sha256"))
    made_at: Mapped[dt.datetime] = mapped_column(default=utc_now)
