"""Every deed of mending, asked for by the bench's script and answered as data. All of it asks in care."""

from __future__ import annotations

import datetime as dt
from typing import Any

from flask import Blueprint, jsonify, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.errors import Fault, LemelError, NotAllowed, NotFound, Overtaken, Unacceptable
from archive.interviews.closing_edits import close_span, lift
from archive.interviews.copies_edits import ask_for_copies
from archive.interviews.model import Recording
from archive.interviews.transcripts import queries
from archive.interviews.transcripts.edits import keep_lines, set_state
from archive.interviews.transcripts.known import known_records
from archive.interviews.transcripts.merging import merge
from archive.interviews.transcripts.replacing import Asked, marks_brought_in, replacements
from archive.interviews.transcripts.suggesting import suggestions
from archive.interviews.transcripts.tie_edits import accept_tie, drop_tie
from archive.rights.decisions import Role
from archive.tasks.queue import hand_over
from archive.values.timecode import Span
from archive.web.requests import keeper_in_care, only_for, role, session, store_of_request, today
from archive.web.workroom.bench import asked, told

mends = Blueprint("mends", __name__, url_prefix="/workroom/recordings/<ref>/bench")
mends.before_request(only_for(Role.KEEPER))

MENDED = "Mended at the bench"
ONE_VERSION = dt.timedelta(minutes=1)
_STATUS = {NotAllowed: 403, NotFound: 404, Overtaken: 409}


@mends.url_value_preprocessor
def take_transcripts(endpoint: str | None, _values: dict[str, Any] | None) -> None:
    """A keeper's whole transcript is larger than the forms of the rest of the house."""
    if endpoint in {"mends.keep", "mends.merged", "mends.look"} and role() is Role.KEEPER:
        request.max_content_length = asked.LARGEST


@mends.errorhandler(LemelError)
def refuse(problem: LemelError) -> ResponseReturnValue:
    """Tell the script in words what cannot be done."""
    more = {"version": problem.version, "who": problem.who} if isinstance(problem, Overtaken) else {}
    faults = problem.faults[:3] if isinstance(problem, Unacceptable) else ()
    said = [f"{fault.where} {fault.line or ''}".strip() + f": {fault.found}. {fault.allowed}." for fault in faults]
    return jsonify({"says": " ".join(said) or str(problem), **more}), _STATUS.get(type(problem), 400)


@mends.post("/lines")
def keep(ref: str) -> ResponseReturnValue:
    """Keep the lines as a version; what one person keeps within a minute is one version."""
    _recording(ref)
    given = asked.body()
    lines, based_on = asked.lines(given), asked.number(given, "version")
    said = asked.words(given, "said") or MENDED
    with store_of_request().changing(current_user.name) as change:
        row = _recording(ref, change)
        version = keep_lines(
            change, row, lines, who=current_user.name, said=said, based_on=based_on, joined_within=ONE_VERSION
        )
        keys = [line.key for line in queries.lines_of(change, row)]
        state = row.transcript_state
    return jsonify({"version": version, "keys": keys, "state": state})


@mends.post("/merged")
def merged(ref: str) -> ResponseReturnValue:
    """My lines, what they were made from, and what stands now, brought together line by line."""
    recording, given = _recording(ref), asked.body()
    theirs = queries.lines_of(session(), recording)
    last = queries.last_version(session(), recording)
    found = merge(asked.lines(given, "base"), asked.lines(given, "mine"), theirs)
    return jsonify(
        {
            "version": recording.transcript_version,
            "who": last.who if last else "",
            "parts": told.parts(found),
            "theirs": [told.of_line(line) for line in theirs],
        }
    )


@mends.post("/replacements")
def look(ref: str) -> ResponseReturnValue:
    """What find and replace would do; nothing is done. Without anything to find: marks brought into the convention."""
    _recording(ref)
    given = asked.body()
    if given.get("marks") is True:
        return jsonify(told.replacements(marks_brought_in(asked.texts(given))))
    wanted = Asked(
        asked.words(given, "find"),
        asked.words(given, "put"),
        case=given.get("case") is True,
        whole_words=given.get("whole") is True,
    )
    return jsonify(told.replacements(replacements(asked.texts(given), wanted)))


@mends.post("/suggestions")
def suggested(ref: str) -> ResponseReturnValue:
    """What a line's words seem to speak of."""
    _recording(ref)
    given = asked.body()
    found = suggestions(asked.words(given, "text"), known_records(session()), asked.pairs(given, "tied"))
    return jsonify(told.suggestions(found))


@mends.post("/ties")
def tie(ref: str) -> ResponseReturnValue:
    """Tie a line to a record, or untie it; answers with what the line is tied to now."""
    _recording(ref)
    given = asked.body()
    segment, kind, target = asked.number(given, "line"), asked.words(given, "kind"), asked.words(given, "ref")
    with store_of_request().changing(current_user.name) as change:
        row = _recording(ref, change)
        if given.get("untie") is True:
            drop_tie(change, row, segment, kind, target)
        else:
            accept_tie(change, row, segment, kind, target, current_user.name, today())
        there = [each for each in queries.segments_in_care(change, keeper_in_care(), row) if each.id == segment]
        now = told.ties(there[0])
    return jsonify(now)


@mends.post("/closures")
def close(ref: str) -> ResponseReturnValue:
    """Close a stretch, or open it again; answers with what is closed now."""
    _recording(ref)
    given, store = asked.body(), store_of_request()
    with store.changing(current_user.name) as change:
        row = _recording(ref, change)
        if "lift" in given:
            lift(change, row, asked.number(given, "lift"))
        else:
            span = _inside(asked.span(given), row)
            reason, review = asked.words(given, "reason"), asked.day(given, "review")
            close_span(change, row, span, reason=reason, review_on=review, on=today())
        change.expire(row, ["closures"])
        now = told.closures(row)
        copies = ask_for_copies(change, current_user.name)
    hand_over(store, copies)
    return jsonify(now)


@mends.post("/state")
def say_checked(ref: str) -> ResponseReturnValue:
    """Say that a person has checked the words, or that they are a draft after all."""
    _recording(ref)
    checked = asked.body().get("checked") is True
    with store_of_request().changing(current_user.name) as change:
        row = _recording(ref, change)
        set_state(row, checked=checked)
        state = row.transcript_state
    return jsonify({"state": state, "address": url_for("mending.page", ref=ref)})


def _recording(ref: str, change: Any = None) -> Recording:
    return queries.recording_in_care(change or session(), keeper_in_care(), ref)


def _inside(span: Span, recording: Recording) -> Span:
    if span.start_ms >= recording.duration_ms:
        raise Unacceptable(
            [Fault("start", 0, "it starts after the end", "Give a time in the recording")], "The closure"
        )
    return Span(span.start_ms, min(span.end_ms, recording.duration_ms))
