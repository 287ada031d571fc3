"""The kiosk: the plan and everything on it, for visitors."""

from __future__ import annotations

from typing import TypeAlias

from flask import Blueprint, request

from archive.errors import Fault, Unacceptable
from archive.rights.decisions import Purpose, Viewer
from archive.values.date_words import date_in_words
from archive.values.timecode import parse_media_fragment
from archive.web.kiosk.bench import plan_page
from archive.web.kiosk.making import hazard_page, process_page, processes_page
from archive.web.kiosk.stations import station_page
from archive.web.kiosk.things import object_page, objects_page, person_page
from archive.web.kiosk.voices import interview_page, voice_page, voices_page
from archive.web.kiosk.words import term_page, terms_page
from archive.web.pages import show
from archive.web.requests import session, viewer

Page: TypeAlias = tuple[str, int]

kiosk = Blueprint("kiosk", __name__, url_prefix="/kiosk")
kiosk.add_app_template_filter(date_in_words, "date_in_words")


@kiosk.get("/")
@kiosk.get("/floors/<floor>")
def plan(floor: str = "") -> Page:
    """The plan of a floor and the board of its stations."""
    floor = floor or request.args.get("floor", "")
    return show("kiosk/plan.html", plan_page(session(), floor, request.args.get("room", "")))


@kiosk.get("/stations/<ref>")
def station(ref: str) -> Page:
    """What is told at one station."""
    return show("kiosk/station.html", station_page(session(), _visitor(), ref))


@kiosk.get("/voices/")
def voices() -> Page:
    """Every voice that is open here."""
    return show("kiosk/voices.html", voices_page(session(), _visitor()))


@kiosk.get("/voices/<ref>")
def voice(ref: str) -> Page:
    """One clip, played with its words."""
    return show("kiosk/voice.html", voice_page(session(), _visitor(), ref, _time_asked()))


@kiosk.get("/interviews/<ref>")
def interview(ref: str) -> Page:
    """One whole interview."""
    recording = request.args.get("recording", "")
    return show("kiosk/interview.html", interview_page(session(), _visitor(), ref, recording, _time_asked()))


@kiosk.get("/people/<ref>")
def person(ref: str) -> Page:
    """One person, as far as they may be known."""
    return show("kiosk/person.html", person_page(session(), _visitor(), ref))


@kiosk.get("/processes/")
def processes() -> Page:
    """How a button is made: the whole chain."""
    return show("kiosk/processes.html", processes_page(session()))


@kiosk.get("/processes/<ref>")
def process(ref: str) -> Page:
    """One process."""
    return show("kiosk/process.html", process_page(session(), _visitor(), ref))


@kiosk.get("/hazards/<ref>")
def hazard(ref: str) -> Page:
    """One hazard."""
    return show("kiosk/hazard.html", hazard_page(session(), _visitor(), ref))


@kiosk.get("/objects/")
def objects() -> Page:
    """Every object."""
    return show("kiosk/objects.html", objects_page(session()))


@kiosk.get("/objects/<ref>")
def museum_object(ref: str) -> Page:
    """One object."""
    return show("kiosk/object.html", object_page(session(), _visitor(), ref))


@kiosk.get("/terms/")
def terms() -> Page:
    """Every word of the trade."""
    return show("kiosk/terms.html", terms_page(session()))


@kiosk.get("/terms/<ref>")
def term(ref: str) -> Page:
    """One word of the trade."""
    return show("kiosk/term.html", term_page(session(), _visitor(), ref))


def _visitor() -> Viewer:
    """Whoever is signed in sees on the kiosk what its visitors may see, and nothing more."""
    return viewer(Purpose.KIOSK)


def _time_asked() -> int | None:
    """Where to start, from `?t=` in seconds, as milliseconds."""
    text = request.args.get("t", "")
    if not text:
        return None
    try:
        return round(parse_media_fragment(text)[0] * 1000)
    except ValueError as problem:
        fault = Fault("t", 0, str(problem), "Give a time in seconds, such as t=12.5")
        raise Unacceptable([fault], "The address") from problem
