"""A home's collection written as a folder of open files: whole, or not at all."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

from archive.errors import Conflict
from archive.exchange.draft_voices import CollectionDraft
from archive.exchange.drafting import draft_of
from archive.exchange.written_things import thing_files
from archive.exchange.written_tours import tour_files
from archive.exchange.written_voices import voice_files
from archive.store.session import Store


def write_folder(store: Store, target: Path) -> None:
    """Write everything, what is closed included; raises Conflict where something stands already."""
    _refuse_if_full(target)
    target.parent.mkdir(parents=True, exist_ok=True)
    with store.session() as session:
        draft = draft_of(session, store.files)
    fresh = Path(tempfile.mkdtemp(prefix=".writing-", dir=target.parent))
    try:
        write_draft(draft, fresh)
        # The folder keeps the mode of a temporary one: for its owner alone, since what is closed is in it.
        if target.exists():
            target.rmdir()
        os.replace(fresh, target)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def write_draft(draft: CollectionDraft, folder: Path) -> None:
    """Write a draft's texts and copy its files into a folder."""
    texts = {**thing_files(draft), **voice_files(draft), **tour_files(draft)}
    for name, text in texts.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    for name, source in _copies(draft):
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(source, path)


def _copies(draft: CollectionDraft) -> Iterator[tuple[str, Path]]:
    for thing in draft.objects:
        yield from ((f"pictures/{picture.file_name}", picture.path) for picture in thing.pictures)
    for interview in draft.interviews:
        for recording in interview.recordings:
            sounds = (recording.master, *recording.also)
            yield from ((f"interviews/{interview.ref}/{sound.name}", sound.path) for sound in sounds)


def _refuse_if_full(target: Path) -> None:
    if target.is_symlink() or (target.exists() and (not target.is_dir() or any(target.iterdir()))):
        raise Conflict(f"{target} is there already and is not an empty folder. Choose another name.")
