"""Objects, processes, stations and terms as the API gives them: open to all, but for people's names."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from flask import url_for

from archive.objects.model import MuseumObject
from archive.plan.model import Station
from archive.processes.model import Process
from archive.terms.model import Term
from archive.web.api.asking import refs
from archive.web.reading.links import record_url


@dataclass(frozen=True)
class PictureRecord:
    """A picture with words for those who cannot see it."""

    url: str
    text: str
    width: int
    height: int


@dataclass(frozen=True)
class ObjectRecord:
    """A museum object; `made` is an EDTF date, the others are words or references."""

    ref: str
    name: str
    description: str
    material: str
    dimensions: str
    maker: str
    made: str
    station: str | None
    machine: bool
    made_by: tuple[str, ...]
    used_in: tuple[str, ...]
    pictures: tuple[PictureRecord, ...]
    url: str


def object_record(one: MuseumObject, names: Mapping[int, str]) -> ObjectRecord:
    """An object; its maker under the name that may be shown."""
    ties = sorted((tie.role, tie.process.ref) for tie in one.process_ties)
    return ObjectRecord(
        ref=one.ref,
        name=one.name,
        description=one.description,
        material=one.material,
        dimensions=one.dimensions,
        maker=names.get(one.maker_id or 0, ""),
        made=one.made.text if one.made else "",
        station=one.station.ref if one.station else None,
        machine=one.machine,
        made_by=tuple(ref for role, ref in ties if role == "made by"),
        used_in=tuple(ref for role, ref in ties if role == "used in"),
        pictures=tuple(
            PictureRecord(url_for("media.picture", file_name=p.file_name), p.text, p.width, p.height)
            for p in one.pictures
        ),
        url=record_url("object", one.ref),
    )


@dataclass(frozen=True)
class LinkRecord:
    """The process that comes before, and what passes between."""

    process: str
    passes: str


@dataclass(frozen=True)
class ProcessRecord:
    """A process with its prose by heading."""

    ref: str
    name: str
    summary: str
    themes: tuple[str, ...]
    sections: Mapping[str, str]
    stations: tuple[str, ...]
    hazards: tuple[str, ...]
    terms: tuple[str, ...]
    comes_after: tuple[LinkRecord, ...]
    url: str


def process_record(one: Process) -> ProcessRecord:
    """A process."""
    return ProcessRecord(
        ref=one.ref,
        name=one.name,
        summary=one.summary,
        themes=tuple(one.themes),
        sections={section.heading: section.body for section in one.sections},
        stations=refs(one.stations),
        hazards=refs(one.hazards),
        terms=refs(one.terms),
        comes_after=tuple(LinkRecord(link.after.ref, link.passes) for link in one.comes_after),
        url=record_url("process", one.ref),
    )


@dataclass(frozen=True)
class StationRecord:
    """A spot on the floor where something is told."""

    ref: str
    number: int
    name: str
    room: str
    floor: str
    summary: str
    seats: bool
    quiet: bool
    url: str


def station_record(one: Station) -> StationRecord:
    """A station."""
    url = record_url("station", one.ref)
    room = one.room
    return StationRecord(
        one.ref, one.number, one.name, room.ref, room.floor.ref, one.summary, one.seats, one.quiet, url
    )


@dataclass(frozen=True)
class TermRecord:
    """A term of the thesaurus with its other words and its neighbours."""

    ref: str
    preferred: str
    language: str
    meaning: str
    other_words: tuple[str, ...]
    said_as: str
    broader: tuple[str, ...]
    narrower: tuple[str, ...]
    related: tuple[str, ...]
    url: str


def term_records(terms: Sequence[Term]) -> list[TermRecord]:
    """All the terms; narrower is broader read backwards, and related goes both ways."""
    ref_of = {term.id: term.ref for term in terms}
    ends: defaultdict[tuple[str, str], set[str]] = defaultdict(set)
    back = {"broader": "narrower", "related": "related"}
    for term in terms:
        for relation in term.relations:
            other = ref_of[relation.other_id]
            ends[term.ref, relation.kind].add(other)
            ends[other, back[relation.kind]].add(term.ref)
    return [_term(term, ends) for term in terms]


def _term(term: Term, ends: Mapping[tuple[str, str], set[str]]) -> TermRecord:
    near = {kind: tuple(sorted(ends.get((term.ref, kind), ()))) for kind in ("broader", "narrower", "related")}
    return TermRecord(
        ref=term.ref,
        preferred=term.preferred,
        language=term.language,
        meaning=term.meaning,
        other_words=tuple(term.other_words),
        said_as=term.said_as,
        **near,
        url=record_url("term", term.ref),
    )
