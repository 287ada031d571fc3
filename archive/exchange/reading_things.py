"""People, terms and objects out of their tables, and the demonstrations of machines."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from archive.errors import CannotRead
from archive.exchange.chains import find_loop
from archive.exchange.columns import OBJECTS, PEOPLE, PICTURE_TEXTS, TERMS
from archive.exchange.csv_tables import CsvRow, parse_table
from archive.exchange.draft import (
    ClearanceDraft,
    DemonstrationDraft,
    ObjectDraft,
    PersonDraft,
    PictureDraft,
    TermDraft,
)
from archive.exchange.faults import shown
from archive.exchange.folder_files import FolderFiles
from archive.exchange.known import Known
from archive.exchange.toml_files import TomlTable, parse_toml
from archive.objects.model import CLEARANCE_KINDS
from archive.people.model import KINDS, ROLES
from archive.pictures.preparing import ENDINGS, prepare

T = TypeVar("T")
NAME, SHORT = 300, 200


def read_rows(
    files: FolderFiles, name: str, columns: tuple[str, ...], known: Known, kind: str, read: Callable[[CsvRow], T]
) -> tuple[T, ...]:
    """Each row of a table as a draft; a table that is not there is empty."""
    if not files.has(name):
        return ()
    before = len(files.faults.faults)
    text = files.text(name)
    rows = [] if text is None else parse_table(text, name, columns, files.faults)
    if len(files.faults.faults) > before and kind:
        known.unsure.add(kind)
    return tuple(read(row) for row in rows)


def read_people(files: FolderFiles, known: Known) -> tuple[PersonDraft, ...]:
    """people.csv"""

    def person(row: CsvRow) -> PersonDraft:
        ref = row.ref("ref")
        known.add("person", ref, row.place())
        unnamed, called = row.flag("unnamed", default=False), row.text("called", limit=SHORT)
        if unnamed and not called:
            row.fault("called", "an unnamed person is called nothing", "Write in 'called' what may be shown instead")
        return PersonDraft(
            origin=row.place(),
            ref=ref,
            name=row.text("name", required=True, limit=NAME),
            kind=row.choice("kind", KINDS, default="person"),
            roles=row.choices("roles", ROLES),
            trade=row.text("trade", limit=SHORT),
            born=row.uncertain_date("born"),
            died=row.uncertain_date("died"),
            unnamed=unnamed,
            called=called,
            initials=row.text("initials", limit=20),
            note=row.text("note"),
        )

    return read_rows(files, "people.csv", PEOPLE, known, "person", person)


def read_terms(files: FolderFiles, known: Known) -> tuple[TermDraft, ...]:
    """terms.csv"""

    def term(row: CsvRow) -> TermDraft:
        ref = row.ref("ref")
        known.add("term", ref, row.place())
        return TermDraft(
            origin=row.place(),
            ref=ref,
            preferred=row.text("preferred", required=True, limit=NAME),
            language=row.language("language"),
            meaning=row.text("meaning", required=True),
            other_words=row.texts("other_words", limit=NAME),
            said_as=row.text("said_as", limit=120),
            broader=frozenset(row.refs("broader")),
            related=frozenset(row.refs("related")),
        )

    terms = read_rows(files, "terms.csv", TERMS, known, "term", term)
    for draft in terms:
        known.only("term", sorted(draft.broader | draft.related), draft.origin)
        if draft.ref in draft.broader | draft.related:
            files.faults.add(draft.origin, f"{shown(draft.ref)} is tied to itself", "Name another term")
    loop = find_loop({draft.ref: sorted(draft.broader - {draft.ref}) for draft in terms})
    if loop:
        place = next(draft.origin for draft in terms if draft.ref == loop[0])
        found = f"broader terms run in a loop: {' -> '.join(loop)}"
        files.faults.add(place, found, "A term cannot be broader than itself; take one of them out")
    return terms


def read_objects(files: FolderFiles, known: Known) -> tuple[ObjectDraft, ...]:
    """objects.csv and the pictures it names."""
    shown_by: dict[str, str] = {}

    def museum_object(row: CsvRow) -> ObjectDraft:
        ref = row.ref("ref")
        known.add("object", ref, row.place())
        return ObjectDraft(
            origin=row.place(),
            ref=ref,
            name=row.text("name", required=True, limit=NAME),
            description=row.text("description", required=True),
            material=row.text("material", limit=NAME),
            dimensions=row.text("dimensions", limit=NAME),
            maker=known.tie("person", row, "maker", required=False),
            made=row.uncertain_date("made"),
            station=known.tie("station", row, "station", required=False),
            machine=row.flag("machine", default=False),
            made_by=frozenset(known.ties("process", row, "made_by")),
            used_in=frozenset(known.ties("process", row, "used_in")),
            workers=frozenset(known.ties("person", row, "workers")),
            pictures=_pictures(files, row, shown_by),
        )

    return read_rows(files, "objects.csv", OBJECTS, known, "object", museum_object)


def _pictures(files: FolderFiles, row: CsvRow, shown_by: dict[str, str]) -> tuple[PictureDraft, ...]:
    names = row.texts("pictures")
    texts = row.split("picture_texts", PICTURE_TEXTS)
    if len(texts) != len(names) or not all(texts):
        found = f"{len(names)} pictures have {sum(map(bool, texts))} texts"
        row.fault("picture_texts", found, "Write one text for each picture, in the same order, with | between them")
        return ()
    pictures = []
    for name, text in zip(names, texts, strict=True):
        if not row.is_good_file("pictures", name, ENDINGS):
            continue
        if shown_by.setdefault(name, row.cells["ref"]) != row.cells["ref"]:
            row.fault("pictures", f"the picture {shown(name)} is another object's too", "Each picture shows one object")
        path = files.file(f"pictures/{name}", row.place())
        if path is None:
            continue
        try:
            prepare(path)
        except CannotRead as problem:
            files.faults.take(problem, f"pictures/{name}")
        pictures.append(PictureDraft(origin=row.place(), file_name=name, text=text, path=path))
    return tuple(pictures)


def read_demonstrations(
    files: FolderFiles, known: Known, objects: tuple[ObjectDraft, ...]
) -> tuple[tuple[DemonstrationDraft, ...], tuple[ClearanceDraft, ...]]:
    """demonstrations.toml"""
    name = "demonstrations.toml"
    if not files.has(name):
        return (), ()
    text = files.text(name)
    table = None if text is None else parse_toml(text, name, files.faults)
    if table is None:
        known.unsure.add("demonstration")
        return (), ()
    machines = {draft.ref for draft in objects if draft.machine}
    demonstrations = tuple(_demonstration(row, known, machines) for row in table.tables("demonstrations"))
    clearances = [_clearance(row, known) for row in table.tables("clearances")]
    table.finish()
    return demonstrations, tuple(clearance for clearance in clearances if clearance is not None)


def _demonstration(row: TomlTable, known: Known, machines: set[str]) -> DemonstrationDraft:
    ref, machine = row.ref("ref"), known.tie("object", row, "object")
    known.add("demonstration", ref, row.place("ref"))
    if machine and machine not in machines and "object" not in known.unsure:
        row.fault("object", f"the object {shown(machine)} is no machine", "Only a machine (machine=yes) can be run")
    steps, cautions = row.texts("steps", once=False), row.texts("cautions", once=False)
    for key, entries in (("steps", steps), ("cautions", cautions)):
        if not entries:
            row.fault(key, f"'{key}' is empty", "A demonstration has steps and cautions")
    draft = DemonstrationDraft(
        origin=row.place(),
        ref=ref,
        object=machine,
        title=row.text("title", required=True, limit=NAME),
        minutes=row.number("minutes", 0.1, 600),
        warm_up_minutes=row.number("warm_up_minutes", 0, 600, default=0),
        noise_db=row.number("noise_db", 0, 194) if row.has("noise_db") else None,
        noise_at_m=row.number("noise_at_m", 0.01, 1000) if row.has("noise_at_m") else None,
        sudden=row.flag("sudden", default=False),
        stand_back_m=row.number("stand_back_m", 0, 1000),
        steps=steps,
        cautions=cautions,
    )
    row.finish("noise_db", "noise_at_m")
    return draft


def _clearance(row: TomlTable, known: Known) -> ClearanceDraft | None:
    machine, kind = known.tie("object", row, "object"), row.choice("kind", CLEARANCE_KINDS)
    who, note = known.tie("person", row, "who", required=False), row.text("note")
    dated, runs_out = row.day("dated", required=True), row.day("runs_out", required=True)
    row.finish()
    if dated is None or runs_out is None:
        return None
    if runs_out < dated:
        row.fault("runs_out", f"it runs out on {runs_out}, before it is dated", "The later day is the one it runs out")
    return ClearanceDraft(
        origin=row.place(), object=machine, kind=kind, who=who, dated=dated, runs_out=runs_out, note=note
    )
