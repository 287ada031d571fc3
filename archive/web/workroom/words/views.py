"""Typed transcripts: brought, looked at as they are understood, kept. Nothing is kept before the keeper says so."""

from __future__ import annotations

from dataclasses import replace

from flask import Blueprint, Response, redirect, request, send_file, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user
from sqlalchemy.orm import Session

from archive.errors import Fault, Overtaken, Unacceptable
from archive.exchange.typed.reading import LARGEST_BYTES, read_typed
from archive.interviews.model import Recording
from archive.interviews.transcripts import queries, typed_queries
from archive.interviews.transcripts.edits import keep_lines
from archive.interviews.transcripts.typed_edits import keep_typed_file
from archive.rights.decisions import Role
from archive.web.pages import show
from archive.web.requests import keeper_in_care, only_for, role, session, store_of_request, viewer, whole_number
from archive.web.workroom.words import aside as asides
from archive.web.workroom.words import pages
from archive.web.workroom.words.aside import Aside
from archive.web.workroom.words.choices import Known, read_choices

words = Blueprint("words", __name__, url_prefix="/workroom/recordings/<ref>/words")
words.before_request(only_for(Role.KEEPER))

# More than a file may have, so that one that is a little too large is told so beside its field.
_MOST_SENT = 3 * LARGEST_BYTES


@words.url_value_preprocessor
def take_files(endpoint: str | None, _values: dict[str, object] | None) -> None:
    """A keeper's file may be larger than the forms of the rest of the house; before anything reads the form."""
    if endpoint == "words.bring" and role() is Role.KEEPER:
        request.max_content_length = _MOST_SENT


@words.get("")
def choose(ref: str) -> ResponseReturnValue:
    """The form that brings a file."""
    kept = whole_number("kept", 0, most=10**9) or None
    return show("workroom/words/choose.html", pages.choose_page(session(), _recording(ref), kept=kept))


@words.post("")
def bring(ref: str) -> ResponseReturnValue:
    """Lay a file aside and show how it is understood; one that cannot be read is refused beside its field."""
    recording = _recording(ref)
    brought = request.files.get("file")
    name = asides.tidy_name(brought.filename or "") if brought else ""
    content = brought.read(LARGEST_BYTES + 1) if brought else b""
    try:
        if not brought or not brought.filename:
            return _refused(recording, ["Choose a file first."])
        read_typed(content, name)
    except Unacceptable as refused:
        return _refused(recording, [f"{fault}." for fault in refused.faults])
    new = Aside(0, ref, name, current_user.name, recording.transcript_version)
    laid = asides.lay_aside(store_of_request().settings, new, content)
    return redirect(url_for("words.look", ref=ref, key=laid.key), 303)


@words.get("/<int:key>")
def look(ref: str, key: int) -> ResponseReturnValue:
    """How the file is understood, with what was chosen so far."""
    return _look(_recording(ref), _aside(ref, key))


@words.post("/<int:key>")
def look_again(ref: str, key: int) -> ResponseReturnValue:
    """Keep what was chosen with the file, and show it anew."""
    recording, aside = _recording(ref), _aside(ref, key)
    try:
        aside = _choose(aside, recording)
    except Unacceptable as refused:
        return _look(recording, aside, refused)
    return redirect(url_for("words.look", ref=ref, key=aside.key, _anchor="lines"), 303)


@words.post("/<int:key>/keep")
def keep(ref: str, key: int) -> ResponseReturnValue:
    """Make the words the transcript, as a new version, and keep the file beside it."""
    recording, aside = _recording(ref), _aside(ref, key)
    try:
        aside = _choose(aside, recording)
        version = _keep(aside, with_lines=True)
    except Unacceptable as refused:
        return _look(recording, aside, refused)
    except Overtaken as overtaken:
        asides.note(store_of_request().settings, replace(aside, based_on=overtaken.version))
        told = (
            f"{overtaken} Nothing was kept. If these words shall stand all the same, keep them now; all versions stay."
        )
        return _look(recording, aside, told=told)
    return redirect(url_for("words.choose", ref=ref, kept=version), 303)


@words.post("/<int:key>/file")
def keep_file(ref: str, key: int) -> ResponseReturnValue:
    """Keep the file alone; the transcript stays as it is."""
    _keep(_aside(ref, key), with_lines=False)
    return redirect(url_for("words.choose", ref=ref, _anchor="files"), 303)


@words.post("/<int:key>/drop")
def drop(ref: str, key: int) -> ResponseReturnValue:
    """Keep nothing."""
    asides.drop(store_of_request().settings, _aside(ref, key))
    return redirect(url_for("words.choose", ref=ref), 303)


@words.get("/files/<int:number>")
def typed_file(ref: str, number: int) -> Response:
    """A typed original, byte for byte."""
    kept = typed_queries.typed_file(session(), _recording(ref), number)
    path = store_of_request().files.path(kept.sha256)
    return send_file(path, "application/octet-stream", as_attachment=True, download_name=kept.file_name)


def _recording(ref: str) -> Recording:
    return queries.recording_in_care(session(), keeper_in_care(), ref)


def _aside(ref: str, key: int) -> Aside:
    return asides.find(store_of_request().settings, key, ref)


def _known(recording: Recording) -> Known:
    return pages.known_people(session(), viewer(), recording)


def _understood(aside: Aside, recording: Recording, known: Known) -> pages.Understood:
    content = asides.content_of(store_of_request().settings, aside).read_bytes()
    return pages.understood(aside, content, recording, known)


def _choose(aside: Aside, recording: Recording) -> Aside:
    chosen = replace(aside, chosen=read_choices(request.form, aside.chosen, _known(recording)))
    asides.note(store_of_request().settings, chosen)
    return chosen


def _keep(aside: Aside, *, with_lines: bool) -> int:
    """The file, and its lines if they are wanted, in one deed."""
    store, who = store_of_request(), current_user.name
    place = asides.content_of(store.settings, aside)
    form = read_typed(place.read_bytes(), aside.file_name).form
    sha256, size = store.files.keep(place)
    with store.changing(who) as change:
        recording = queries.recording_in_care(change, keeper_in_care(), aside.recording)
        keep_typed_file(change, recording, sha256, size, name=aside.file_name, form=form, who=who)
        if with_lines:
            _put_in(change, aside, recording)
        version = recording.transcript_version
    asides.drop(store.settings, aside)
    return version


def _put_in(change: Session, aside: Aside, recording: Recording) -> None:
    """The lines as the transcript's new version; while any time is a guess it is a draft."""
    found = pages.understood(
        aside,
        asides.content_of(store_of_request().settings, aside).read_bytes(),
        recording,
        pages.known_people(change, viewer(), recording),
    )
    if not found.lines:
        none = Fault("first", 0, "No line would be kept", "Change how the file is understood, or keep the file alone")
        raise Unacceptable([none], aside.file_name)
    state = "draft" if any(line.doubtful for line in found.lines) else "checked"
    said = f"Words from the file {aside.file_name}"[:300]
    keep_lines(change, recording, found.lines, who=current_user.name, said=said, based_on=aside.based_on, state=state)


def _refused(recording: Recording, faults: list[str]) -> ResponseReturnValue:
    page = pages.choose_page(session(), recording, faults={"file": " ".join(faults[:20])})
    return show("workroom/words/choose.html", page, 400)


def _look(
    recording: Recording, aside: Aside, refused: Unacceptable | None = None, told: str = ""
) -> ResponseReturnValue:
    known = _known(recording)
    faults = {fault.where: f"{fault.found}. {fault.allowed}." for fault in refused.faults} if refused else {}
    faults |= {"keep": told} if told else {}
    found = _understood(aside, recording, known)
    page = pages.look_page(aside, found, recording, known, whole=request.args.get("all") == "1", faults=faults)
    return show("workroom/words/look.html", page, 409 if told else 400 if faults else 200)
