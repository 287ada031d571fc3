"""Sound, pictures and captions."""

from __future__ import annotations

import hashlib
from pathlib import PurePath

from flask import Blueprint, Response, jsonify, request

from archive.audio.levels import Levels
from archive.errors import NotAllowed
from archive.interviews import queries as interviews
from archive.interviews.clips.cutting import sound_of
from archive.interviews.clips.sound import ALONE_LUFS
from archive.interviews.clips.sound import MEDIA_TYPES as CLIP_TYPES
from archive.interviews.model import Clip, Recording
from archive.interviews.rendition_jobs import MEDIA_TYPES, WAVEFORM
from archive.interviews.renditions import servable
from archive.objects import queries as objects
from archive.rights.decisions import Purpose, Role
from archive.tours.given.levels import level_on_tour
from archive.web import requests
from archive.web.media.answers import send_kept, send_made
from archive.web.media.captions import captions_of, captions_of_clip

media = Blueprint("media", __name__, url_prefix="/media")

PICTURE_TYPES = {".webp": "image/webp", ".png": "image/png", ".jpg": "image/jpeg", ".jpeg": "image/jpeg"}


@media.get("/recordings/<ref>.<any(webm, mp3):form>")
def sound(ref: str, form: str) -> Response:
    """What may be heard of a recording; the master never, unless it came fit for browsers and nothing is closed."""
    rendition = servable(_recording(ref), form)
    path = requests.store_of_request().files.path(rendition.sha256)
    return send_kept(path, sha256=rendition.sha256, media_type=MEDIA_TYPES[form], name=f"{ref}.{form}")


@media.get("/waveforms/<ref>.json")
def waveform(ref: str) -> Response:
    """The levels of a recording for drawing, flat where it is closed."""
    recording = _recording(ref)
    rendition = servable(recording, WAVEFORM)
    levels = Levels.from_bytes(requests.store_of_request().files.path(rendition.sha256).read_bytes())
    drawn = {"step_ms": levels.step_ms, "duration_ms": recording.duration_ms, "peaks": levels.peaks}
    return send_made(jsonify(drawn), etag=rendition.sha256)


@media.get("/captions/<ref>.vtt")
def captions(ref: str) -> Response:
    """The open segments of a recording as captions, under the names that may be shown."""
    text = captions_of(requests.session(), requests.viewer(requests.purpose_asked("for")), _recording(ref))
    return _captions(text)


@media.get("/clips/<ref>.<any(webm, mp3, m4a, wav):form>")
def clip(ref: str, form: str) -> Response:
    """A clip's own sound and nothing beyond it, made now if need be; `?tour=` asks for the level of that tour."""
    if form == "wav" and requests.role() is not Role.KEEPER:
        raise NotAllowed("A clip as WAV is for a keeper. Ask for it as webm, mp3 or m4a.")
    store, session, wanted = requests.store_of_request(), requests.session(), _clip(ref)
    tour = request.args.get("tour", "")
    level = level_on_tour(store, session, requests.viewer(Purpose.TOUR), tour) if tour else ALONE_LUFS
    sha256 = sound_of(store, session, wanted, form, level)
    return send_kept(store.files.path(sha256), sha256=sha256, media_type=CLIP_TYPES[form], name=f"{ref}.{form}")


@media.get("/clips/<ref>.vtt")
def clip_captions(ref: str) -> Response:
    """The words of a clip, in step with its own sound."""
    wanted = _clip(ref)
    text = captions_of_clip(requests.session(), requests.viewer(requests.purpose_asked("for")), wanted)
    return _captions(text)


@media.get("/pictures/<file_name>")
def picture(file_name: str) -> Response:
    """A picture of an object, as it is kept."""
    wanted = objects.picture(requests.session(), file_name)
    path = requests.store_of_request().files.path(wanted.sha256)
    media_type = PICTURE_TYPES.get(PurePath(wanted.file_name).suffix.lower(), "application/octet-stream")
    return send_kept(path, sha256=wanted.sha256, media_type=media_type, name=wanted.file_name)


def _recording(ref: str) -> Recording:
    """The recording, if its interview is open to this viewer for the purpose asked for."""
    viewer = requests.viewer(requests.purpose_asked("for"))
    return interviews.recording(requests.session(), viewer, ref)


def _clip(ref: str) -> Clip:
    """The clip, if it is open to this viewer for the purpose asked for, asked anew each time."""
    viewer = requests.viewer(requests.purpose_asked("for"))
    return interviews.clip(requests.session(), viewer, ref)


def _captions(text: str) -> Response:
    return send_made(Response(text, mimetype="text/vtt"), etag=hashlib.sha256(text.encode()).hexdigest())
