"""The same answers for machines, as JSON: lists in pages, single records, and the search."""

from __future__ import annotations

from dataclasses import asdict, replace

from flask import Blueprint, Response, jsonify, request

from archive.errors import Fault, Unacceptable
from archive.evidence import queries as statements_kept
from archive.interviews import queries as interviews_kept
from archive.interviews.names import shown_names
from archive.objects import queries as objects_kept
from archive.plan import queries as plan_kept
from archive.processes import queries as processes_kept
from archive.reckoners.asking import each_once
from archive.reckoners.registry import RECKONERS, reckon
from archive.reckoners.telling import as_data, reckoner_data
from archive.search.schema import FACETS
from archive.store.queries import found
from archive.terms import queries as terms_kept
from archive.web.api.addresses import hit_for
from archive.web.api.asking import PAGING, answer_list, api_viewer, limit_and_offset, only_parameters, pages
from archive.web.api.things import object_record, process_record, station_record, term_records
from archive.web.api.voices import interview_record, segment_record, statement_record
from archive.web.requests import session
from archive.web.searching import ask, filters_asked

api = Blueprint("api", __name__, url_prefix="/api/v1")


@api.get("/search")
def search() -> Response:
    """What words find among what is open for the purpose; the facets count all hits."""
    only_parameters("q", *FACETS, *PAGING)
    viewer = api_viewer()
    limit, offset = limit_and_offset()
    text, filters = request.args.get("q", "").strip(), filters_asked()
    if not text and not filters:
        raise Unacceptable([Fault("q", 0, "nothing is asked for", "Give words, or a filter")], "The address")
    page = ask(viewer, text, filters, limit=limit, offset=offset)
    page = replace(page, hits=[hit_for(viewer, hit) for hit in page.hits])
    more = {"did_you_mean": page.did_you_mean, "facets": page.facets, "speakers": page.speakers}
    return jsonify({**page.as_answer(), **more, **pages(page.total, limit, offset)})


@api.get("/interviews")
def interviews() -> Response:
    """The open interviews."""
    only_parameters(*PAGING)
    viewer = api_viewer()
    names = shown_names(session(), viewer)
    return answer_list(interviews_kept.interviews(session(), viewer), lambda one: interview_record(one, viewer, names))


@api.get("/interviews/<ref>")
def interview(ref: str) -> Response:
    """One open interview."""
    only_parameters()
    viewer = api_viewer()
    wanted = interviews_kept.interview(session(), viewer, ref)
    return jsonify(asdict(interview_record(wanted, viewer, shown_names(session(), viewer))))


@api.get("/recordings/<ref>/segments")
def segments(ref: str) -> Response:
    """The open segments of a recording."""
    only_parameters(*PAGING)
    viewer = api_viewer()
    recording = interviews_kept.recording(session(), viewer, ref)
    names, interview_ref = shown_names(session(), viewer), recording.interview.ref
    spoken = interviews_kept.segments(session(), viewer, recording)
    return answer_list(spoken, lambda one: segment_record(one, interview_ref, viewer, names))


@api.get("/objects")
def objects() -> Response:
    """All objects."""
    only_parameters(*PAGING)
    names = shown_names(session(), api_viewer())
    return answer_list(objects_kept.objects(session()), lambda one: object_record(one, names))


@api.get("/objects/<ref>")
def museum_object(ref: str) -> Response:
    """One object."""
    only_parameters()
    names = shown_names(session(), api_viewer())
    return jsonify(asdict(object_record(objects_kept.museum_object(session(), ref), names)))


@api.get("/processes")
def processes() -> Response:
    """All processes."""
    only_parameters(*PAGING)
    api_viewer()
    return answer_list(processes_kept.processes(session()), lambda one: process_record(one))


@api.get("/processes/<ref>")
def process(ref: str) -> Response:
    """One process."""
    only_parameters()
    api_viewer()
    return jsonify(asdict(process_record(processes_kept.process(session(), ref))))


@api.get("/stations")
def stations() -> Response:
    """All stations."""
    only_parameters(*PAGING)
    api_viewer()
    return answer_list(plan_kept.stations(session()), lambda one: station_record(one))


@api.get("/stations/<ref>")
def station(ref: str) -> Response:
    """One station."""
    only_parameters()
    api_viewer()
    return jsonify(asdict(station_record(plan_kept.station(session(), ref))))


@api.get("/terms")
def terms() -> Response:
    """All terms."""
    only_parameters(*PAGING)
    api_viewer()
    return answer_list(term_records(terms_kept.terms(session())), lambda one: one)


@api.get("/terms/<ref>")
def term(ref: str) -> Response:
    """One term."""
    only_parameters()
    api_viewer()
    mine = [one for one in term_records(terms_kept.terms(session())) if one.ref == ref]
    return jsonify(asdict(found(mine[0] if mine else None, "term", ref)))


@api.get("/statements")
def statements() -> Response:
    """The statements that may be known of."""
    only_parameters(*PAGING)
    viewer = api_viewer()
    names = shown_names(session(), viewer)
    return answer_list(statements_kept.statements(session(), viewer), lambda one: statement_record(one, viewer, names))


@api.get("/statements/<ref>")
def statement(ref: str) -> Response:
    """One statement."""
    only_parameters()
    viewer = api_viewer()
    wanted = statements_kept.statement(session(), viewer, ref)
    return jsonify(asdict(statement_record(wanted, viewer, shown_names(session(), viewer))))


@api.get("/reckoners")
def reckoners() -> Response:
    """Every reckoner: its inputs with units and ranges, its outputs, its sources."""
    only_parameters()
    return jsonify({"total": len(RECKONERS), "items": [reckoner_data(one) for one in RECKONERS.values()]})


@api.get("/reckoners/<path:name>")
def reckoning(name: str) -> Response:
    """A sum worked out with what the address gives; a field left out has its default."""
    return jsonify(as_data(reckon(name, each_once(list(request.args.items(multi=True))))))
