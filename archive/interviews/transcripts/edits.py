"""The one way in which transcripts change, for everybody: `keep_lines`. Nothing commits here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any

from sqlalchemy import Table, bindparam, update
from sqlalchemy.orm import Session
from sqlalchemy.orm.attributes import set_committed_value

from archive.errors import Overtaken, Unacceptable
from archive.interviews.model import Recording, Segment, Tie, TranscriptVersion
from archive.interviews.transcripts import queries
from archive.interviews.transcripts.comparing import compare
from archive.interviews.transcripts.lines import Line, faults_of
from archive.interviews.transcripts.matching import heir, pair, parents
from archive.store.base import utc_now

AS_IT_WAS = "As it was before it was first changed here"


def keep_lines(
    session: Session,
    recording: Recording,
    lines: Sequence[Line],
    *,
    who: str,
    said: str,
    based_on: int,
    state: str | None = None,
    joined_within: dt.timedelta = dt.timedelta(0),
) -> int:
    """Make the transcript these lines, and return the number of the version that this makes.

    `based_on` is the `transcript_version` that the lines were made from; `Overtaken` when it is no longer the newest.
    A line that is the same, moved or mended keeps its segment, and so its ties and what rests on it; what hung on a
    line that is gone goes to the line over the same time. `state` sets 'draft' or 'checked'; a transcript that had
    none is a draft unless it says so. `joined_within` makes one version of the same person's deeds of that while.
    """
    if based_on != recording.transcript_version:
        raise overtaken(session, recording, based_on)
    refs = queries.speaker_refs(session)
    faults = list(faults_of(lines, recording.duration_ms, frozenset(refs.values())))
    if faults:
        raise Unacceptable(faults, f"The transcript of {recording.ref}")
    segments = queries.segments_of(session, recording)
    before = [queries.line_of(segment, refs) for segment in segments]
    if not state and [line.bare for line in before] == [line.bare for line in lines]:
        return recording.transcript_version
    if recording.transcript_version == 0 and before:
        _write(session, recording, 0, "", AS_IT_WAS, before)
    _put(session, recording, segments, before, lines, {ref: key for key, ref in refs.items()})
    recording.transcript_version += 1
    if state or recording.transcript_state == "none":
        recording.transcript_state = state or "draft"
    _keep_version(session, recording, who, said, lines, joined_within)
    session.flush()
    session.expire(recording, ["segments"])
    return recording.transcript_version


def overtaken(session: Session, recording: Recording, based_on: int) -> Overtaken:
    """The error that tells who changed a transcript since a version, and what."""
    newest, base = (queries.last_version(session, recording, at_most) for at_most in (None, based_on))
    now = queries.lines_of(session, recording)
    changed = compare(queries.version_lines(base), now) if base else now
    return Overtaken(
        f"the transcript of {recording.ref}",
        who=newest.who if newest else "",
        version=recording.transcript_version,
        changed=changed,
    )


def go_back(session: Session, recording: Recording, number: int, *, who: str, based_on: int) -> int:
    """Make an older version the newest again: as a version of its own, so that nothing is lost."""
    kept = queries.version_lines(queries.version(session, recording, number))
    return keep_lines(session, recording, kept, who=who, said=f"Went back to version {number}", based_on=based_on)


def set_state(recording: Recording, *, checked: bool) -> None:
    """Say that a person has checked the transcript, or that it is a draft after all."""
    recording.transcript_state = "checked" if checked else "draft"


def _put(
    session: Session,
    recording: Recording,
    segments: Sequence[Segment],
    before: Sequence[Line],
    lines: Sequence[Line],
    people: dict[str, int],
) -> None:
    """Change, add and delete segments; then hand on what hung on those that are gone."""
    pairs = pair(before, lines)
    if pairs != list(range(len(segments))):
        _make_way(session, recording, segments)
    now = []
    for position, (line, was) in enumerate(zip(lines, pairs, strict=True)):
        segment = segments[was] if was is not None else Segment(recording_id=recording.id, position=position)
        _say(segment, line, people)
        now.append(segment)
    session.add_all(now)
    _take_places(session, now, pairs)
    for at, was in parents(before, lines, pairs).items():
        _copy_ties(segments[was], now[at])
    gone = sorted(set(range(len(segments))) - set(pairs))
    heirs = {was: heir(before[was], lines) for was in gone}
    _hand_on(session, [(segments[was], None if at is None else now[at]) for was, at in heirs.items()])


def _say(segment: Segment, line: Line, people: dict[str, int]) -> None:
    segment.start_ms, segment.end_ms, segment.text = line.start_ms, line.end_ms, line.text
    segment.speaker_id, segment.speaker_label = people.get(line.speaker), line.label
    segment.confidence, segment.doubtful = line.confidence, line.doubtful


def _make_way(session: Session, recording: Recording, segments: Sequence[Segment]) -> None:
    """Move every segment out of the way, since no two may stand at one place even for a moment.

    A place is no news of its own, so it is neither written to the history nor told to who follows changes.
    """
    mine = Segment.recording_id == recording.id
    moved = update(Segment).where(mine).values(position=-1 - Segment.position)
    session.execute(moved, execution_options={"synchronize_session": False})
    for segment in segments:
        set_committed_value(segment, "position", -1 - segment.position)


def _take_places(session: Session, now: Sequence[Segment], pairs: Sequence[int | None]) -> None:
    session.flush()
    places = [
        {"key": segment.id, "place": place}
        for place, (segment, was) in enumerate(zip(now, pairs, strict=True))
        if was is not None and segment.position != place
    ]
    if places:
        table = _table(Segment)
        put = update(table).where(table.c.id == bindparam("key")).values(position=bindparam("place"))
        session.connection().execute(put, places)
    for place, segment in enumerate(now):
        set_committed_value(segment, "position", place)


def _copy_ties(was: Segment, now: Segment) -> None:
    """What the whole line spoke of, each part of it may speak of: ties stand on every line over their time."""
    there = {_target(tie) for tie in now.ties}
    now.ties.extend(_copy(tie) for tie in was.ties if _target(tie) not in there)


def _hand_on(session: Session, gone: Sequence[tuple[Segment, Segment | None]]) -> None:
    """Give what hung on segments that are gone to their successors, then delete them."""
    for segment, successor in gone:
        if successor is not None:
            _copy_ties(segment, successor)
    session.flush()
    moved = [{"gone": segment.id, "successor": successor.id} for segment, successor in gone if successor is not None]
    for table, column in _resting_on_segments() if moved else ():
        rest = update(table).where(table.c[column] == bindparam("gone")).values({column: bindparam("successor")})
        session.connection().execute(rest, moved)
    for segment, _successor in gone:
        session.delete(segment)
    session.flush()


def _resting_on_segments() -> list[tuple[Table, str]]:
    """Every column of every table that leads to a segment, ties apart: evidence stands in a room above this one."""
    segment, tie = _table(Segment), _table(Tie)
    return [
        (table, key.parent.name)
        for table in Segment.metadata.tables.values()
        for key in table.foreign_keys
        if key.column.table is segment and table is not tie
    ]


def _table(kind: type[Any]) -> Table:
    table = kind.__table__
    assert isinstance(table, Table)
    return table


_TARGETS = ("object_id", "process_id", "station_id", "person_id", "term_id", "period")


def _target(tie: Tie) -> tuple[Any, ...]:
    return tuple(getattr(tie, name) for name in _TARGETS)


def _copy(tie: Tie) -> Tie:
    same = {name: getattr(tie, name) for name in (*_TARGETS, "state", "made_by", "made_on")}
    return Tie(**same)


def _keep_version(
    session: Session, recording: Recording, who: str, said: str, lines: Sequence[Line], within: dt.timedelta
) -> None:
    """Write the version; or let it take the place of the last one, where the same person was at the same work."""
    last, number = queries.last_version(session, recording), recording.transcript_version
    same = last is not None and (last.who, last.said) == (who, said) and last.number == number - 1 > 0
    if last is not None and same and utc_now() - last.made_at < within:
        last.number, last.lines = number, [line.row for line in lines]
    else:
        _write(session, recording, number, who, said, lines)


def _write(
    session: Session, recording: Recording, number: int, who: str, said: str, lines: Sequence[Line]
) -> TranscriptVersion:
    made = TranscriptVersion(
        recording_id=recording.id, number=number, who=who, said=said, lines=[line.row for line in lines]
    )
    session.add(made)
    session.flush()
    return made
