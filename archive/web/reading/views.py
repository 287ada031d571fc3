"""The Reading room: search, interviews to read and hear, people, statements, accounts compared."""

from __future__ import annotations

from flask import Blueprint, Response, request

from archive.errors import Fault, Unacceptable
from archive.evidence import queries as statements_kept
from archive.interviews import queries as interviews_kept
from archive.interviews.model import Interview, Recording
from archive.rights.decisions import Role
from archive.store.queries import found
from archive.values.timecode import parse_media_fragment
from archive.web.pages import show
from archive.web.reading.evidence_page import accounts_of, accounts_page
from archive.web.reading.interview_page import interview_page
from archive.web.reading.interviews_page import interviews_page
from archive.web.reading.narrowing import Asked
from archive.web.reading.person_page import person_page
from archive.web.reading.said.figures_page import SORTS, FiguresAsked, figures_page
from archive.web.reading.search_page import search_page
from archive.web.reading.taking import TRANSCRIPT_TYPES, transcript_of
from archive.web.requests import only_for, session, viewer, whole_number
from archive.web.searching import filters_asked

reading = Blueprint("reading", __name__, url_prefix="/reading")
reading.before_request(only_for(Role.READER, Role.GUIDE, Role.KEEPER))


@reading.get("/")
def room() -> tuple[str, int]:
    """Search, or the invitation to it."""
    asked = Asked(request.args.get("q", "").strip(), filters_asked(), whole_number("page", 1, least=1, most=500))
    return show("reading/room.html", search_page(session(), viewer(), asked))


@reading.get("/interviews/")
def interviews() -> tuple[str, int]:
    """The open interviews."""
    return show("reading/interviews.html", interviews_page(session(), viewer()))


@reading.get("/interviews/<ref>")
def interview(ref: str) -> tuple[str, int]:
    """One interview to read and hear, at the time asked for."""
    asking = viewer()
    wanted = interviews_kept.interview(session(), asking, ref)
    page = interview_page(session(), asking, wanted, _recording_of(wanted), time_asked())
    return show("reading/interview.html", page)


@reading.get("/recordings/<ref>.<any(txt, vtt):form>")
def transcript(ref: str, form: str) -> Response:
    """The transcript of a recording to take away, under the shown names."""
    asking = viewer()
    recording = interviews_kept.recording(session(), asking, ref)
    answer = Response(transcript_of(session(), asking, recording, form), mimetype=TRANSCRIPT_TYPES[form])
    answer.headers.set("Content-Disposition", "attachment", filename=f"{recording.ref}.{form}")
    return answer


@reading.get("/people/<ref>")
def person(ref: str) -> tuple[str, int]:
    """One person whom the viewer may know of."""
    asking = viewer()
    wanted = interviews_kept.person(session(), asking, ref)
    return show("reading/person.html", person_page(session(), asking, wanted))


@reading.get("/statements/<ref>")
def statement(ref: str) -> tuple[str, int]:
    """One statement with its evidence."""
    asking = viewer()
    wanted = statements_kept.statement(session(), asking, ref)
    return show("reading/statement.html", accounts_of(session(), asking, [wanted])[0])


@reading.get("/accounts/")
def accounts() -> tuple[str, int]:
    """The statements on which accounts disagree."""
    return show("reading/accounts.html", accounts_page(session(), viewer()))


@reading.get("/figures/")
def figures() -> tuple[str, int]:
    """The figures that narrators told, to search and sort."""
    asked = {name: request.args.get(name, "").strip() for name in ("kind", "unit", "speaker", "about")}
    sort = request.args.get("sort", "")
    page = whole_number("page", 1, least=1, most=5000)
    text = request.args.get("q", "").strip()[:300]
    wanted = FiguresAsked(text, **asked, sort=sort if sort in SORTS else "told", page=page)
    return show("reading/figures.html", figures_page(session(), viewer(), wanted))


def time_asked() -> int | None:
    """The time in the address, in milliseconds; Unacceptable when it is not one."""
    text = request.args.get("t", "")
    if not text:
        return None
    try:
        start, _end = parse_media_fragment(text)
    except ValueError as problem:
        fault = Fault("t", 0, str(problem).partition(";")[0], "Write seconds, such as t=12.5")
        raise Unacceptable([fault], "The address") from problem
    return round(start * 1000)


def _recording_of(wanted: Interview) -> Recording:
    """The recording named in the address, else the interview's first."""
    ref = request.args.get("recording", "")
    chosen = [recording for recording in wanted.recordings if recording.ref == ref or not ref]
    return found(chosen[0] if chosen else None, "recording", ref)
