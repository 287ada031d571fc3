"""Reading a collection folder whole: a draft of everything in it, or one error with every fault."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from difflib import get_close_matches
from pathlib import Path

from archive.errors import CannotRead
from archive.exchange.draft import CardDraft, ObjectDraft
from archive.exchange.draft_voices import CollectionDraft, InterviewDraft
from archive.exchange.faults import Place, shown
from archive.exchange.folder_files import FolderFiles
from archive.exchange.known import Known
from archive.exchange.reading_clips import read_clips
from archive.exchange.reading_plan import read_plan
from archive.exchange.reading_processes import read_hazards, read_processes
from archive.exchange.reading_things import read_demonstrations, read_objects, read_people, read_terms
from archive.exchange.reading_tours import read_statements, read_tellings, read_tours
from archive.exchange.reading_voices import read_interviews
from archive.exchange.toml_files import parse_toml
from archive.exchange.unnamed import PEOPLE_FILE, UnnamedNames

CARD = "collection.toml"
PARTS = (
    CARD,
    "plan",
    PEOPLE_FILE,
    "terms.csv",
    "objects.csv",
    "pictures",
    "hazards",
    "processes",
    "demonstrations.toml",
    "interviews",
    "clips.csv",
    "statements.toml",
    "tellings.toml",
    "tours",
)
NAME = 300


def read_folder(path: Path) -> CollectionDraft:
    """The collection of a folder; raises Unacceptable with all its faults. Nothing is written anywhere."""
    if not path.is_dir():
        raise CannotRead(str(path), 0, "it is not a folder", "Give a collection folder, one with collection.toml in it")
    files = FolderFiles(path)
    known = Known(files.faults)
    names = list(_file_names(path))
    _check_parts(files)
    card = _read_card(files)
    plan = read_plan(files, known)
    people = read_people(files, known)
    terms = read_terms(files, known)
    hazards = read_hazards(files, known)
    processes = read_processes(files, known)
    objects = read_objects(files, known)
    demonstrations, clearances = read_demonstrations(files, known, objects)
    interviews = read_interviews(files, known, people)
    clips = read_clips(files, known, interviews)
    statements = read_statements(files, known, interviews)
    tellings = read_tellings(files, known)
    draft = CollectionDraft(
        card=card,
        plan=plan,
        people=people,
        terms=terms,
        hazards=hazards,
        processes=processes,
        objects=objects,
        demonstrations=demonstrations,
        clearances=clearances,
        interviews=interviews,
        clips=clips,
        statements=statements,
        tellings=tellings,
        tours=read_tours(files, known, tellings),
        notes=tuple(_notes(names, files, _used(objects, interviews))),
    )
    unnamed = UnnamedNames(files.texts.get(PEOPLE_FILE, ""))
    unnamed.check(files.texts, names, draft, files.faults)
    files.faults.raise_if_any(unnamed.hide(str(path)), unnamed.hide)
    return draft


def _read_card(files: FolderFiles) -> CardDraft:
    text = files.text(CARD)
    table = None if text is None else parse_toml(text, CARD, files.faults)
    if table is None:
        return CardDraft(
            ref="",
            name="",
            place="",
            language="",
            contact="",
            about="",
            voices_note="",
            walking_pace_m_per_s=1,
            speaking_pace_wpm=100,
        )
    card = CardDraft(
        origin=Place(CARD),
        ref=table.ref("ref"),
        name=table.text("name", required=True, limit=NAME),
        place=table.text("place", required=True, limit=NAME),
        language=table.language("language"),
        contact=table.text("contact"),
        about=table.text("about"),
        voices_note=table.text("voices_note"),
        walking_pace_m_per_s=table.number("walking_pace_m_per_s", 0.1, 3),
        speaking_pace_wpm=table.number("speaking_pace_wpm", 30, 400),
    )
    table.finish()
    return card


def _file_names(root: Path) -> Iterator[str]:
    """The names of all files of the collection's own parts; links to folders are not followed."""
    for folder, _, names in os.walk(root):
        inside = Path(folder).relative_to(root)
        if inside.parts and inside.parts[0] not in PARTS:
            continue
        for name in sorted(names):
            if not name.startswith("."):
                yield (inside / name).as_posix()


def _check_parts(files: FolderFiles) -> None:
    """A part whose name is nearly right would be passed over in silence."""
    for name in sorted(entry.name for entry in files.root.iterdir()):
        near = get_close_matches(name.casefold(), PARTS, 1, cutoff=0.8)
        if name not in PARTS and near and not (files.root / near[0]).exists():
            files.faults.add(Place(name), f"{shown(name)} is no part of a collection folder", f"Call it {near[0]}")


def _used(objects: Sequence[ObjectDraft], interviews: Sequence[InterviewDraft]) -> set[str]:
    """The names of pictures and sound files that records name."""
    pictures = {f"pictures/{picture.file_name}" for draft in objects for picture in draft.pictures}
    sounds = {
        f"interviews/{interview.ref}/{sound.name}"
        for interview in interviews
        for recording in interview.recordings
        for sound in (recording.master, *recording.also)
    }
    return pictures | sounds


def _notes(names: list[str], files: FolderFiles, used: set[str]) -> Iterator[str]:
    """What was passed over, for the report of a load."""
    for name in names:
        if name not in files.texts and name not in used:
            yield f"{name} was left where it is: nothing in the folder names it."
