"""One recording for the keeper in care of it: what it is, what happened to it, and where work on it is done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from flask import url_for
from flask_babel import gettext as _
from sqlalchemy.orm import Session

from archive.interviews.intake import queries
from archive.interviews.model import Recording
from archive.interviews.names import shown_names, shown_text
from archive.interviews.queries import clip_ids
from archive.interviews.renditions import fingerprint
from archive.rights.decisions import Viewer
from archive.store.model import Event
from archive.store.queries import events_of
from archive.values.timecode import Span, format_clock

_FORMS = {"webm": "Opus (WebM)", "mp3": "MP3", "m4a": "AAC (M4A)", "waveform": "levels for drawing"}


@dataclass(frozen=True)
class CopyLine:
    """A copy to listen to, and whether it is made for the closures as they are now."""

    form: str
    kind: str
    current: bool


@dataclass(frozen=True)
class ClipLine:
    """A clip of it: its title, and the address of its sound for an editor; both "" where it is closed."""

    ref: str
    span: Span
    title: str
    wav: str


@dataclass(frozen=True)
class RecordingPage:
    """The recording, its facts in words, copies, clips, events, and the ways on that this home has."""

    recording: Recording
    facts: Sequence[tuple[str, str]]
    copies: Sequence[CopyLine]
    clips: Sequence[ClipLine]
    events: Sequence[Event]
    ways: Sequence[tuple[str, str]]
    measured: bool


def recording_page(session: Session, viewer: Viewer, ref: str) -> RecordingPage:
    """The page of one recording, open or closed. Of a clip that is closed to the viewer only reference and times."""
    row = queries.recording(session, ref)
    present = fingerprint(row.closures)
    checksums = (row.master_sha256, *(copy.sha256 for copy in row.renditions))
    return RecordingPage(
        recording=row,
        facts=[(name, said) for name, said in _facts(row) if said],
        copies=[CopyLine(_FORMS[copy.form], copy.kind, copy.closed == present) for copy in row.renditions],
        clips=_clips(session, viewer, row),
        events=events_of(session, checksums)[:60],
        ways=_ways(row),
        measured="integrated_lufs" in row.facts,
    )


def _clips(session: Session, viewer: Viewer, row: Recording) -> list[ClipLine]:
    names = shown_names(session, viewer)
    open_ids = clip_ids(session, viewer)
    return [
        ClipLine(
            clip.ref,
            clip.span,
            shown_text(clip.title, row.interview, names) if clip.id in open_ids else "",
            url_for("media.clip", ref=clip.ref, form="wav") if clip.id in open_ids else "",
        )
        for clip in row.clips
    ]


def _facts(row: Recording) -> list[tuple[str, str]]:
    facts = row.facts
    return [
        (_("Length"), format_clock(row.duration_ms)),
        (_("File"), row.master_name),
        (_("Kept as"), ", ".join(dict.fromkeys((row.codec, facts.get("container", row.codec))))),
        (_("Samples"), _samples(row)),
        (_("Channels"), f"{row.channels}"),
        (_("Loudness"), _figure(facts, "integrated_lufs", "LUFS")),
        (_("Range of loudness"), _figure(facts, "range_lu", "LU")),
        (_("True peak"), _figure(facts, "true_peak_dbtp", "dBTP")),
        (_("Gain to −23 LUFS"), _figure(facts, "gain_db", "dB")),
        (_("Clipped"), _share(facts, "clipped_share")),
        (_("Silent"), _share(facts, "silent_share")),
        (_("Pauses"), f"{len(facts['pauses'])}" if "pauses" in facts else ""),
        *_broadcast(facts.get("bext") or {}),
        (_("Checksum (SHA-256)"), row.master_sha256),
    ]


def _samples(row: Recording) -> str:
    bits = row.facts.get("bits")
    rate = _("%(rate)s a second", rate=f"{row.sample_rate:,}")
    return f"{rate}, {_('%(bits)s bits each', bits=bits)}" if bits else str(rate)


def _figure(facts: dict[str, Any], name: str, unit: str) -> str:
    value = facts.get(name)
    return "" if value is None else f"{value:.1f} {unit}".replace("-", "−")


def _share(facts: dict[str, Any], name: str) -> str:
    value = facts.get(name)
    return "" if value is None else f"{value * 100:.2g} %" if value else _("none")


def _broadcast(bext: dict[str, Any]) -> list[tuple[str, str]]:
    """What the recorder wrote into the file itself."""
    when = " ".join(part for part in (bext.get("origination_date", ""), bext.get("origination_time", "")) if part)
    by = ", ".join(part for part in (bext.get("originator", ""), bext.get("originator_reference", "")) if part)
    return [
        (_("Recorded, as the file says"), when),
        (_("Recorder, as the file says"), by),
        (_("Note in the file"), bext.get("description", "")),
    ]


def _ways(row: Recording) -> list[tuple[str, str]]:
    """Where work on the recording is done."""
    return [
        (url_for("mending.page", ref=row.ref), _("Mend the words at the bench")),
        (url_for("closing.page", ref=row.ref), _("Close passages, or open them")),
        (url_for("words.choose", ref=row.ref), _("Bring typed words")),
        (url_for("aligning.page", ref=row.ref), _("Find times for typed words")),
        (url_for("drafting.page", ref=row.ref), _("Have a draft made")),
        (url_for("turns.page", ref=row.ref), _("Tell the voices apart")),
    ]
