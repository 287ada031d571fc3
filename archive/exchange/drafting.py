"""A home's records as a draft: the way back from `storing`."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.exchange.draft import (
    AmenityDraft,
    CardDraft,
    ClearanceDraft,
    DemonstrationDraft,
    DoorDraft,
    EndDraft,
    FloorDraft,
    HazardDraft,
    LinkDraft,
    ObjectDraft,
    ObstacleDraft,
    PassageDraft,
    PersonDraft,
    PictureDraft,
    PlanDraft,
    ProcessDraft,
    ReckoningDraft,
    RoomDraft,
    StationDraft,
    TermDraft,
)
from archive.exchange.draft_voices import CollectionDraft
from archive.exchange.drafting_tours import draft_statements, draft_tellings, draft_tours
from archive.exchange.drafting_voices import draft_clips, draft_interviews
from archive.objects.model import Clearance, Demonstration, MuseumObject
from archive.people.model import Person
from archive.plan.model import Amenity, Door, Floor, Obstacle, Passage, Room, Station
from archive.processes.model import Hazard, Process
from archive.store.files import FileStore
from archive.store.queries import collection, everything
from archive.terms.model import Term


def draft_of(session: Session, files: FileStore) -> CollectionDraft:
    """Everything that a home holds of its collection; raises Conflict if it holds none."""
    card = collection(session)
    return CollectionDraft(
        card=CardDraft(
            ref=card.ref,
            name=card.name,
            place=card.place,
            language=card.language,
            contact=card.contact,
            about=card.about,
            voices_note=card.voices_note,
            walking_pace_m_per_s=card.walking_pace_m_per_s,
            speaking_pace_wpm=card.speaking_pace_wpm,
        ),
        plan=_plan(session),
        people=tuple(map(_person, everything(session, Person))),
        terms=tuple(map(_term, everything(session, Term))),
        hazards=tuple(map(_hazard, everything(session, Hazard))),
        processes=tuple(map(_process, everything(session, Process))),
        objects=tuple(_object(thing, files) for thing in everything(session, MuseumObject)),
        demonstrations=tuple(map(_demonstration, everything(session, Demonstration))),
        clearances=_clearances(session),
        interviews=draft_interviews(session, files),
        clips=draft_clips(session),
        statements=draft_statements(session),
        tellings=draft_tellings(session),
        tours=draft_tours(session),
    )


def _plan(session: Session) -> PlanDraft:
    floors = {floor.id: floor.ref for floor in everything(session, Floor)}
    return PlanDraft(
        floors=tuple(
            FloorDraft(
                ref=floor.ref,
                name=floor.name,
                level=floor.level,
                svg_name=floor.svg_name,
                svg=floor.svg,
                metres_per_unit=floor.metres_per_unit,
            )
            for floor in everything(session, Floor)
        ),
        rooms=tuple(_room(room, floors) for room in everything(session, Room)),
        doors=tuple(_door(door, floors) for door in everything(session, Door)),
        stations=tuple(map(_station, everything(session, Station))),
        passages=tuple(map(_passage, everything(session, Passage))),
        amenities=tuple(
            AmenityDraft(
                ref=amenity.ref,
                kind=amenity.kind,
                room=amenity.room.ref,
                element=amenity.element,
                spot=(amenity.x, amenity.y),
            )
            for amenity in everything(session, Amenity)
        ),
        obstacles=tuple(map(_obstacle, everything(session, Obstacle))),
    )


def _obstacle(obstacle: Obstacle) -> ObstacleDraft:
    return ObstacleDraft(
        ref=obstacle.ref,
        kind=obstacle.kind,
        room=obstacle.room.ref,
        element=obstacle.element,
        outline=tuple((x, y) for x, y in obstacle.outline),
    )


def _room(room: Room, floors: dict[int, str]) -> RoomDraft:
    return RoomDraft(
        ref=room.ref,
        name=room.name,
        floor=floors[room.floor_id],
        element=room.element,
        outline=tuple((x, y) for x, y in room.outline),
        label=(room.label_x, room.label_y),
        capacity=room.capacity,
        note=room.note,
        height_m=room.height_m,
        absorption=room.absorption,
    )


def _door(door: Door, floors: dict[int, str]) -> DoorDraft:
    return DoorDraft(
        ref=door.ref,
        floor=floors[door.floor_id],
        element=door.element,
        spot=(door.x, door.y),
        room_a=door.room_a.ref,
        room_b=door.room_b.ref if door.room_b else "",
        width_m=door.width_m,
        headroom_m=door.headroom_m,
        step_mm=door.step_mm,
        gradient_percent=door.gradient_percent,
        one_way=door.one_way,
        note=door.note,
    )


def _station(station: Station) -> StationDraft:
    return StationDraft(
        ref=station.ref,
        number=station.number,
        name=station.name,
        room=station.room.ref,
        element=station.element,
        spot=(station.x, station.y),
        summary=station.summary,
        seats=station.seats,
        quiet=station.quiet,
    )


def _passage(passage: Passage) -> PassageDraft:
    return PassageDraft(
        ref=passage.ref,
        kind=passage.kind,
        name=passage.name,
        width_m=passage.width_m,
        headroom_m=passage.headroom_m,
        steps=passage.steps,
        rise_mm=passage.rise_mm,
        length_m=passage.length_m,
        capacity=passage.capacity,
        cycle_s=passage.cycle_s,
        note=passage.note,
        ends=tuple(EndDraft(room=end.room.ref, element=end.element, spot=(end.x, end.y)) for end in passage.ends),
    )


def _person(person: Person) -> PersonDraft:
    return PersonDraft(
        ref=person.ref,
        name=person.name,
        kind=person.kind,
        roles=tuple(person.roles),
        trade=person.trade,
        born=person.born,
        died=person.died,
        unnamed=person.unnamed,
        called=person.called,
        initials=person.initials,
        note=person.note,
    )


def _term(term: Term) -> TermDraft:
    return TermDraft(
        ref=term.ref,
        preferred=term.preferred,
        language=term.language,
        meaning=term.meaning,
        other_words=tuple(term.other_words),
        said_as=term.said_as,
        broader=frozenset(tie.other.ref for tie in term.relations if tie.kind == "broader"),
        related=frozenset(tie.other.ref for tie in term.relations if tie.kind == "related"),
    )


def _hazard(hazard: Hazard) -> HazardDraft:
    return HazardDraft(
        ref=hazard.ref,
        name=hazard.name,
        summary=hazard.summary,
        limits=hazard.limits,
        then=hazard.then,
        now=hazard.now,
        controls=tuple(control.text for control in hazard.controls),
        cautions=hazard.cautions,
    )


def _process(process: Process) -> ProcessDraft:
    links = sorted(process.comes_after, key=lambda link: link.id)
    return ProcessDraft(
        ref=process.ref,
        name=process.name,
        summary=process.summary,
        themes=tuple(process.themes),
        stations=frozenset(station.ref for station in process.stations),
        hazards=frozenset(hazard.ref for hazard in process.hazards),
        terms=frozenset(term.ref for term in process.terms),
        comes_after=tuple(LinkDraft(process=link.after.ref, passes=link.passes) for link in links),
        reckonings=tuple(ReckoningDraft(name=r.name, inputs=r.inputs, about=r.about) for r in process.reckonings),
        sections=tuple(section.body for section in process.sections),
    )


def _object(thing: MuseumObject, files: FileStore) -> ObjectDraft:
    ties = {
        role: {tie.process.ref for tie in thing.process_ties if tie.role == role} for role in ("made by", "used in")
    }
    return ObjectDraft(
        ref=thing.ref,
        name=thing.name,
        description=thing.description,
        material=thing.material,
        dimensions=thing.dimensions,
        maker=thing.maker.ref if thing.maker else "",
        made=thing.made,
        station=thing.station.ref if thing.station else "",
        machine=thing.machine,
        made_by=frozenset(ties["made by"]),
        used_in=frozenset(ties["used in"]),
        workers=frozenset(tie.person.ref for tie in thing.worker_ties),
        pictures=tuple(
            PictureDraft(file_name=picture.file_name, text=picture.text, path=files.path(picture.sha256))
            for picture in thing.pictures
        ),
    )


def _demonstration(demonstration: Demonstration) -> DemonstrationDraft:
    return DemonstrationDraft(
        ref=demonstration.ref,
        object=demonstration.machine.ref,
        title=demonstration.title,
        minutes=demonstration.minutes,
        warm_up_minutes=demonstration.warm_up_minutes,
        noise_db=demonstration.noise_db,
        noise_at_m=demonstration.noise_at_m,
        sudden=demonstration.sudden,
        stand_back_m=demonstration.stand_back_m,
        steps=tuple(demonstration.steps),
        cautions=tuple(demonstration.cautions),
    )


def _clearances(session: Session) -> tuple[ClearanceDraft, ...]:
    objects = {thing.id: thing.ref for thing in everything(session, MuseumObject)}
    return tuple(
        ClearanceDraft(
            object=objects[clearance.object_id],
            kind=clearance.kind,
            who=clearance.person.ref if clearance.person else "",
            dated=clearance.dated,
            runs_out=clearance.runs_out,
            note=clearance.note,
        )
        for clearance in sorted(everything(session, Clearance), key=lambda clearance: clearance.position)
    )
