"""The files of a folder for its card, plan, people, terms, processes and objects."""

from __future__ import annotations

from typing import Any

from archive.exchange.columns import OBJECTS, PEOPLE, TERMS
from archive.exchange.csv_tables import join_list, write_table
from archive.exchange.draft import (
    HazardDraft,
    ObjectDraft,
    PassageDraft,
    PersonDraft,
    PlanDraft,
    ProcessDraft,
    RoomDraft,
    TermDraft,
)
from archive.exchange.draft_voices import CollectionDraft
from archive.exchange.front_matter import write_prose
from archive.exchange.reading_plan import OUTSIDE
from archive.exchange.toml_files import Sections, write_toml
from archive.processes.model import HAZARD_SECTIONS, SECTIONS
from archive.values.dates import UncertainDate

Table = dict[str, Any]


def thing_files(draft: CollectionDraft) -> dict[str, str]:
    """Texts by name."""
    card = draft.card
    files = {
        "collection.toml": write_toml(
            {
                "ref": card.ref,
                "name": card.name,
                "place": card.place,
                "language": card.language,
                "contact": card.contact,
                "walking_pace_m_per_s": card.walking_pace_m_per_s,
                "speaking_pace_wpm": card.speaking_pace_wpm,
                "about": card.about,
                "voices_note": card.voices_note or None,
            }
        ),
        "plan/plan.toml": write_toml(_plan(draft.plan)),
        "people.csv": write_table(PEOPLE, map(_person, draft.people)),
        "terms.csv": write_table(TERMS, map(_term, draft.terms)),
        "objects.csv": write_table(OBJECTS, map(_object, draft.objects)),
    }
    files |= {f"plan/{floor.svg_name}": floor.svg + "\n" for floor in draft.plan.floors}
    files |= {f"hazards/{hazard.ref}.md": _hazard(hazard) for hazard in draft.hazards}
    files |= {f"processes/{process.ref}.md": _process(process) for process in draft.processes}
    if draft.demonstrations or draft.clearances:
        files["demonstrations.toml"] = write_toml(_demonstrations(draft))
    return files


def date_text(date: UncertainDate | None) -> str:
    """A date as it was written; "" for none."""
    return date.text if date else ""


def yes_no(value: bool) -> str:
    """The words of a table."""
    return "yes" if value else "no"


def _plan(plan: PlanDraft) -> Table:
    return {
        "floors": Sections(
            [
                {
                    "ref": floor.ref,
                    "name": floor.name,
                    "level": floor.level,
                    "svg": floor.svg_name,
                    "metres_per_unit": floor.metres_per_unit,
                }
                for floor in plan.floors
            ]
        ),
        "rooms": Sections([_room(room) for room in plan.rooms]),
        "doors": Sections(
            [
                {
                    "ref": door.ref,
                    "floor": door.floor,
                    "element": door.element,
                    "rooms": [door.room_a, door.room_b or OUTSIDE],
                    "width_m": door.width_m,
                    "headroom_m": door.headroom_m,
                    "step_mm": door.step_mm,
                    "gradient_percent": door.gradient_percent or None,
                    "one_way": door.one_way,
                    "note": door.note or None,
                }
                for door in plan.doors
            ]
        ),
        "stations": Sections(
            [
                {
                    "ref": station.ref,
                    "number": station.number,
                    "name": station.name,
                    "room": station.room,
                    "element": station.element,
                    "summary": station.summary,
                    "seats": station.seats,
                    "quiet": station.quiet,
                }
                for station in plan.stations
            ]
        ),
        "passages": Sections([_passage(passage) for passage in plan.passages]),
        "amenities": Sections(
            [
                {"ref": amenity.ref, "kind": amenity.kind, "room": amenity.room, "element": amenity.element}
                for amenity in plan.amenities
            ]
        ),
        "obstacles": Sections(
            [
                {"ref": obstacle.ref, "kind": obstacle.kind, "room": obstacle.room, "element": obstacle.element}
                for obstacle in plan.obstacles
            ]
        ),
    }


def _room(room: RoomDraft) -> Table:
    return {
        "ref": room.ref,
        "name": room.name,
        "floor": room.floor,
        "element": room.element,
        "capacity": room.capacity,
        "note": room.note or None,
        "height_m": room.height_m,
        "absorption": room.absorption,
        "label_x": room.label[0],
        "label_y": room.label[1],
    }


def _passage(passage: PassageDraft) -> Table:
    return {
        "ref": passage.ref,
        "kind": passage.kind,
        "name": passage.name,
        "width_m": passage.width_m,
        "headroom_m": passage.headroom_m,
        "steps": passage.steps or None,
        "rise_mm": passage.rise_mm or None,
        "length_m": passage.length_m or None,
        "capacity": passage.capacity or None,
        "cycle_s": passage.cycle_s or None,
        "note": passage.note or None,
        "ends": [{"room": end.room, "element": end.element} for end in passage.ends],
    }


def _person(person: PersonDraft) -> tuple[str, ...]:
    return (
        person.ref,
        person.name,
        person.kind,
        join_list(person.roles),
        person.trade,
        date_text(person.born),
        date_text(person.died),
        yes_no(person.unnamed),
        person.called,
        person.initials,
        person.note,
    )


def _term(term: TermDraft) -> tuple[str, ...]:
    return (
        term.ref,
        term.preferred,
        term.language,
        term.meaning,
        join_list(term.other_words),
        term.said_as,
        join_list(sorted(term.broader)),
        join_list(sorted(term.related)),
    )


def _object(thing: ObjectDraft) -> tuple[str, ...]:
    return (
        thing.ref,
        thing.name,
        thing.description,
        thing.material,
        thing.dimensions,
        thing.maker,
        date_text(thing.made),
        thing.station,
        yes_no(thing.machine),
        join_list(sorted(thing.made_by)),
        join_list(sorted(thing.used_in)),
        join_list(sorted(thing.workers)),
        join_list(picture.file_name for picture in thing.pictures),
        join_list((picture.text for picture in thing.pictures), " | "),
    )


def _hazard(hazard: HazardDraft) -> str:
    head = {"ref": hazard.ref, "name": hazard.name, "summary": hazard.summary, "limits": hazard.limits}
    controls = "\n".join(f"- {control}" for control in hazard.controls)
    bodies = (hazard.then, hazard.now, controls, hazard.cautions)
    return write_prose(head, list(zip(HAZARD_SECTIONS, bodies, strict=True)))


def _process(process: ProcessDraft) -> str:
    head = {
        "ref": process.ref,
        "name": process.name,
        "summary": process.summary,
        "stations": sorted(process.stations),
        "hazards": sorted(process.hazards),
        "terms": sorted(process.terms),
        "comes_after": [{"process": link.process, "passes": link.passes} for link in process.comes_after],
        "themes": process.themes,
        "reckonings": Sections([{"name": r.name, "inputs": r.inputs, "about": r.about} for r in process.reckonings]),
    }
    return write_prose(head, list(zip(SECTIONS, process.sections, strict=True)))


def _demonstrations(draft: CollectionDraft) -> Table:
    return {
        "demonstrations": Sections(
            [
                {
                    "ref": demonstration.ref,
                    "object": demonstration.object,
                    "title": demonstration.title,
                    "minutes": demonstration.minutes,
                    "warm_up_minutes": demonstration.warm_up_minutes,
                    "noise_db": demonstration.noise_db,
                    "noise_at_m": demonstration.noise_at_m,
                    "sudden": demonstration.sudden or None,
                    "stand_back_m": demonstration.stand_back_m,
                    "steps": demonstration.steps,
                    "cautions": demonstration.cautions,
                }
                for demonstration in draft.demonstrations
            ]
        ),
        "clearances": Sections(
            [
                {
                    "object": clearance.object,
                    "kind": clearance.kind,
                    "who": clearance.who,
                    "dated": clearance.dated,
                    "runs_out": clearance.runs_out,
                    "note": clearance.note or None,
                }
                for clearance in draft.clearances
            ]
        ),
    }
