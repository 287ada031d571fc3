"""Closing passages of a recording, changing what is closed, opening it again. All of it asks in care."""

from __future__ import annotations

from collections.abc import Callable

from flask import Blueprint, Response, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user
from sqlalchemy.orm import Session

from archive.audio.guarding import guarded_span
from archive.errors import Fault, Unacceptable
from archive.interviews import closing_change_edits as change_edits
from archive.interviews import closing_edits as edits
from archive.interviews.closing import known_pauses
from archive.interviews.copies_edits import ask_for_copies
from archive.interviews.model import Recording
from archive.interviews.rendition_jobs import MEDIA_TYPES
from archive.interviews.transcripts.queries import recording_in_care
from archive.rights.decisions import Role
from archive.rights.model import Closure
from archive.tasks.queue import hand_over
from archive.values.timecode import Span
from archive.web.pages import show
from archive.web.requests import keeper_in_care, only_for, session, store_of_request, today, whole_number
from archive.web.workroom.closing.asked import read_closure, read_stretch, written
from archive.web.workroom.closing.hearing import EDGES, heard_stretch, sound_of
from archive.web.workroom.closing.page import LONGEST_WHOLE_MS, closing_page

closing = Blueprint("closing", __name__, url_prefix="/workroom/recordings/<ref>/closures")
closing.before_request(only_for(Role.KEEPER))

TEMPLATE = "workroom/closing/closing.html"
_LATEST = 1 << 31
_DONE = ("closed", "changed", "lifted", "undone")


@closing.get("")
def page(ref: str) -> ResponseReturnValue:
    """The closures, and the form of a new one; the bench hands over the times of a line."""
    recording = _recording(ref)
    times = {name: whole_number(name, 0, most=_LATEST) for name in ("start", "end") if name in request.args}
    asked = _stretch_asked(recording) if len(times) == 2 else None
    given, done = {name: written(time) for name, time in times.items()}, request.args.get("done", "")
    told = closing_page(
        session(), keeper_in_care(), recording, asked=asked, given=given, done=done if done in _DONE else ""
    )
    return show(TEMPLATE, told)


@closing.get("/<int:key>")
def one(ref: str, key: int) -> ResponseReturnValue:
    """The same with the form of one closure, to change it."""
    recording = _recording(ref)
    closure = edits.closure_of(recording, key)
    return show(TEMPLATE, closing_page(session(), keeper_in_care(), recording, changing=closure, asked=closure.span))


@closing.post("/look")
def look(ref: str) -> ResponseReturnValue:
    """What the times of the form would close; nothing is closed."""
    recording = _recording(ref)
    try:
        asked = read_stretch(request.form, recording.duration_ms)
    except Unacceptable as refused:
        return _again(recording, _instead(recording), refused)
    told = closing_page(
        session(), keeper_in_care(), recording, changing=_instead(recording), asked=asked, given=_given()
    )
    return show(TEMPLATE, told)


@closing.post("")
def add(ref: str) -> ResponseReturnValue:
    """Close a passage."""

    def close(change: Session, recording: Recording) -> None:
        asked = read_closure(request.form, recording.duration_ms, today())
        _refuse_twice(recording, asked.span, None)
        edits.close_span(change, recording, asked.span, reason=asked.reason, review_on=asked.review_on, on=today())

    return _from_form(ref, close, "closed", None)


@closing.post("/<int:key>")
def change(ref: str, key: int) -> ResponseReturnValue:
    """Let a closure close another stretch, for another reason, or until another day."""

    def say(change: Session, recording: Recording) -> None:
        edits.closure_of(recording, key)
        asked = read_closure(request.form, recording.duration_ms, today())
        _refuse_twice(recording, asked.span, key)
        reason, review_on = asked.reason, asked.review_on
        change_edits.change_span(change, recording, key, asked.span, reason=reason, review_on=review_on, on=today())

    return _from_form(ref, say, "changed", key)


@closing.post("/<int:key>/lift")
def lift(ref: str, key: int) -> ResponseReturnValue:
    """Open a passage again."""
    return _do(ref, lambda change, recording: edits.lift(change, recording, key), "lifted")


@closing.post("/changes/<int:key>/undo")
def undo(ref: str, key: int) -> ResponseReturnValue:
    """Turn one deed back."""
    return _do(ref, lambda change, recording: change_edits.undo_change(change, recording, key), "undone")


@closing.post("/copies")
def make_copies(ref: str) -> ResponseReturnValue:
    """Ask for the copies that are missing."""
    return _do(ref, lambda _change, _recording: None, "")


@closing.get("/heard.<any(webm, mp3):form>")
def heard(ref: str, form: str) -> Response:
    """An edge of a stretch, closed already or not yet; kept by no cache. The original only where it is asked for."""
    recording = _recording(ref)
    masked = guarded_span(_stretch_asked(recording), known_pauses(recording), recording.duration_ms)
    edge = request.args.get("edge", "start")
    if edge not in EDGES or edge == "whole" and masked.length_ms > LONGEST_WHOLE_MS:
        _refuse("edge", "It is no edge that can be heard", "start or end, and whole up to 30 seconds")
    others = [each.masked for each in recording.closures if str(each.id) != request.args.get("instead")]
    stretch = heard_stretch(edge, masked, recording.duration_ms)
    silent = [] if request.args.get("original") == "1" else [masked, *others]
    master = store_of_request().files.path(recording.master_sha256)
    answer = Response(sound_of(master, stretch, silent, form), mimetype=MEDIA_TYPES[form])
    answer.headers["Cache-Control"] = "no-store"
    return answer


def _from_form(ref: str, deed: Callable[[Session, Recording], None], done: str, key: int | None) -> ResponseReturnValue:
    """Do a deed with what the form says, or show the form again with its faults and what was given."""
    try:
        return _do(ref, deed, done)
    except Unacceptable as refused:
        recording = _recording(ref)
        return _again(recording, edits.closure_of(recording, key) if key is not None else None, refused)


def _do(ref: str, deed: Callable[[Session, Recording], None], done: str) -> ResponseReturnValue:
    """A deed, and in the same commit the wish for copies in which it is so."""
    viewer, store = keeper_in_care(), store_of_request()
    with store.changing(current_user.name) as change:
        recording = recording_in_care(change, viewer, ref)
        deed(change, recording)
        key = ask_for_copies(change, current_user.name)
    hand_over(store, key)
    return redirect(url_for("closing.page", ref=ref, done=done or None), 303)


def _again(recording: Recording, changing: Closure | None, refused: Unacceptable) -> ResponseReturnValue:
    faults = {fault.where: f"{fault.found}. {fault.allowed}." for fault in refused.faults}
    asked, given = _readable(recording), _given()
    told = closing_page(
        session(), keeper_in_care(), recording, changing=changing, asked=asked, given=given, faults=faults
    )
    return show(TEMPLATE, told, 400)


def _readable(recording: Recording) -> Span | None:
    """The stretch that the form names, if its times can be read."""
    try:
        return read_stretch(request.form, recording.duration_ms)
    except Unacceptable:
        return None


def _given() -> dict[str, str]:
    return {name: value[:2_100] for name, value in request.form.items()}


def _instead(recording: Recording) -> Closure | None:
    """The closure that the form would change, if it still is there."""
    return next((each for each in recording.closures if str(each.id) == request.form.get("instead")), None)


def _stretch_asked(recording: Recording) -> Span:
    start, end = whole_number("start", 0, most=_LATEST), whole_number("end", 0, most=_LATEST)
    if not start < min(end, recording.duration_ms):
        _refuse("end", "It is no stretch of this recording", "Give a start and a later end, in milliseconds")
    return Span(start, end)


def _refuse_twice(recording: Recording, span: Span, key: int | None) -> None:
    if any(each.span == span and each.id != key for each in recording.closures):
        _refuse("start", "Just this stretch is closed already", "Change that closure instead, or give other times")


def _refuse(where: str, found: str, allowed: str) -> None:
    raise Unacceptable([Fault(where, 0, found, allowed)], "What was asked")


def _recording(ref: str) -> Recording:
    return recording_in_care(session(), keeper_in_care(), ref)
