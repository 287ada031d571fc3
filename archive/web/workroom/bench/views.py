"""The bench: its pages, its data, and its sound. All of it asks in care."""

from __future__ import annotations

from flask import Blueprint, Response, jsonify
from flask.typing import ResponseReturnValue

from archive.audio.cutting import levels_of
from archive.interviews.model import Recording
from archive.interviews.transcripts.queries import recording_in_care
from archive.rights.decisions import Role
from archive.values.timecode import Span
from archive.web.media.answers import send_kept
from archive.web.pages import show
from archive.web.requests import keeper_in_care, only_for, session, store_of_request, whole_number
from archive.web.workroom.bench import told
from archive.web.workroom.bench.page import bench_page
from archive.web.workroom.bench.sounding import whole_sound

mending = Blueprint("mending", __name__, url_prefix="/workroom/recordings/<ref>")
mending.before_request(only_for(Role.KEEPER))

_LONGEST_DRAWN_MS = 60_000


@mending.get("/bench")
def page(ref: str) -> ResponseReturnValue:
    """The page; its script asks for the lines."""
    return show("workroom/bench/bench.html", bench_page(_recording(ref)))


@mending.get("/bench/transcript.json")
def transcript(ref: str) -> Response:
    """Every line, with what it is tied to and what is closed."""
    return jsonify(told.transcript(session(), keeper_in_care(), _recording(ref)))


@mending.get("/sound")
def sound(ref: str) -> Response:
    """The sound with nothing masked, by ranges, kept by no cache."""
    whole = whole_sound(_recording(ref))
    path = store_of_request().files.path(whole.sha256)
    answer = send_kept(path, sha256=whole.sha256, media_type=whole.media_type, name=whole.name)
    answer.headers["Cache-Control"] = "no-store"
    return answer


@mending.get("/levels.json")
def levels(ref: str) -> Response:
    """The peaks of every 10 ms of a stretch, with nothing masked."""
    recording = _recording(ref)
    start = min(whole_number("from", 0, most=1 << 31), recording.duration_ms - 1)
    end = min(whole_number("to", start + 10_000, most=1 << 31), recording.duration_ms, start + _LONGEST_DRAWN_MS)
    drawn = Span(start, max(end, start + 1))
    source = store_of_request().files.path(whole_sound(recording).sha256)
    return jsonify({"start": start, "step": 10, "peaks": levels_of(source, drawn)})


def _recording(ref: str) -> Recording:
    return recording_in_care(session(), keeper_in_care(), ref)
