"""The card, the plan, people, terms, processes and objects as records."""

from __future__ import annotations

from archive.exchange.draft import ObjectDraft, ProcessDraft, TermDraft
from archive.exchange.draft_voices import CollectionDraft
from archive.exchange.keeping import KeptFiles
from archive.exchange.stored import Records
from archive.exchange.storing_plan import store_plan
from archive.objects.model import Clearance, Demonstration, MuseumObject, ObjectProcess, ObjectWorker, Picture
from archive.people.model import Person
from archive.plan.model import Station
from archive.processes.model import SECTIONS, Control, Hazard, Process, ProcessLink, ProcessSection, Reckoning
from archive.store.model import Collection
from archive.terms.model import Term, TermRelation


def store_things(draft: CollectionDraft, records: Records, kept: KeptFiles) -> None:
    """Everything that interviews may speak of."""
    card = draft.card
    records.session.add(
        Collection(
            id=1,
            ref=card.ref,
            name=card.name,
            place=card.place,
            language=card.language,
            contact=card.contact,
            about=card.about,
            voices_note=card.voices_note,
            walking_pace_m_per_s=card.walking_pace_m_per_s,
            speaking_pace_wpm=card.speaking_pace_wpm,
        )
    )
    store_plan(draft.plan, records)
    for person in draft.people:
        records.add(
            person.ref,
            Person(
                ref=person.ref,
                name=person.name,
                kind=person.kind,
                roles=list(person.roles),
                trade=person.trade,
                born=person.born,
                died=person.died,
                unnamed=person.unnamed,
                called=person.called,
                initials=person.initials,
                note=person.note,
            ),
        )
    _store_terms(draft.terms, records)
    _store_processes(draft, records)
    for thing in draft.objects:
        _store_object(thing, records, kept)
    _store_demonstrations(draft, records)


def _store_terms(terms: tuple[TermDraft, ...], records: Records) -> None:
    for term in terms:
        records.add(
            term.ref,
            Term(
                ref=term.ref,
                preferred=term.preferred,
                language=term.language,
                meaning=term.meaning,
                other_words=list(term.other_words),
                said_as=term.said_as,
            ),
        )
    for term in terms:
        ties = [("broader", ref) for ref in sorted(term.broader)] + [("related", ref) for ref in sorted(term.related)]
        records.get(Term, term.ref).relations = [
            TermRelation(other=records.get(Term, ref), kind=kind) for kind, ref in ties
        ]


def _store_processes(draft: CollectionDraft, records: Records) -> None:
    for hazard in draft.hazards:
        records.add(
            hazard.ref,
            Hazard(
                ref=hazard.ref,
                name=hazard.name,
                summary=hazard.summary,
                limits=hazard.limits,
                then=hazard.then,
                now=hazard.now,
                cautions=hazard.cautions,
                controls=[Control(position=number, text=text) for number, text in enumerate(hazard.controls)],
            ),
        )
    for process in draft.processes:
        records.add(process.ref, _process(process, records))
    for process in draft.processes:
        records.get(Process, process.ref).comes_after = [
            ProcessLink(after=records.get(Process, link.process), passes=link.passes) for link in process.comes_after
        ]


def _process(process: ProcessDraft, records: Records) -> Process:
    bodies = enumerate(zip(SECTIONS, process.sections, strict=True))
    return Process(
        ref=process.ref,
        name=process.name,
        summary=process.summary,
        themes=list(process.themes),
        sections=[ProcessSection(position=number, heading=head, body=body) for number, (head, body) in bodies],
        reckonings=[
            Reckoning(position=number, name=reckoning.name, inputs=reckoning.inputs, about=reckoning.about)
            for number, reckoning in enumerate(process.reckonings)
        ],
        stations=records.all(Station, process.stations),
        hazards=records.all(Hazard, process.hazards),
        terms=records.all(Term, process.terms),
    )


def _store_object(thing: ObjectDraft, records: Records, kept: KeptFiles) -> None:
    roles = (("made by", thing.made_by), ("used in", thing.used_in))
    record = MuseumObject(
        ref=thing.ref,
        name=thing.name,
        description=thing.description,
        material=thing.material,
        dimensions=thing.dimensions,
        maker=records.get(Person, thing.maker),
        made=thing.made,
        station=records.get(Station, thing.station),
        machine=thing.machine,
        pictures=[
            Picture(
                position=number,
                file_name=picture.file_name,
                sha256=kept.pictures[picture.path].sha256,
                width=kept.pictures[picture.path].width,
                height=kept.pictures[picture.path].height,
                text=picture.text,
            )
            for number, picture in enumerate(thing.pictures)
        ],
        process_ties=[
            ObjectProcess(process=process, role=role) for role, refs in roles for process in records.all(Process, refs)
        ],
        worker_ties=[ObjectWorker(person=person) for person in records.all(Person, thing.workers)],
    )
    records.add(thing.ref, record)


def _store_demonstrations(draft: CollectionDraft, records: Records) -> None:
    for demonstration in draft.demonstrations:
        record = Demonstration(
            ref=demonstration.ref,
            machine=records.get(MuseumObject, demonstration.object),
            title=demonstration.title,
            minutes=demonstration.minutes,
            warm_up_minutes=demonstration.warm_up_minutes,
            noise_db=demonstration.noise_db,
            noise_at_m=demonstration.noise_at_m,
            sudden=demonstration.sudden,
            stand_back_m=demonstration.stand_back_m,
            steps=list(demonstration.steps),
            cautions=list(demonstration.cautions),
        )
        records.add(demonstration.ref, record)
    for position, clearance in enumerate(draft.clearances):
        records.get(MuseumObject, clearance.object).clearances.append(
            Clearance(
                position=position,
                kind=clearance.kind,
                person=records.get(Person, clearance.who),
                dated=clearance.dated,
                runs_out=clearance.runs_out,
                note=clearance.note,
            )
        )
