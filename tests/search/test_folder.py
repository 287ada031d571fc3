"""The index's folder: what is synced before it is relied on, and the swap."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from archive.search import folder
from archive.search.document import Document
from archive.search.gateway import SearchIndex


@pytest.fixture
def deeds(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, str]]:
    """Every sync and every rename, in order, by the last part of the path."""
    done: list[tuple[str, str]] = []
    real_sync, real_rename, real_replace = folder.sync, os.rename, os.replace

    def sync(path: Path) -> None:
        done.append(("sync", path.name))
        real_sync(path)

    def rename(source: str, target: str) -> None:
        done.append(("rename", Path(target).name))
        real_rename(source, target)

    def replace(source: Path, target: Path) -> None:
        done.append(("rename", Path(target).name))
        real_replace(source, target)

    monkeypatch.setattr(folder, "sync", sync)
    monkeypatch.setattr(os, "rename", rename)
    monkeypatch.setattr(os, "replace", replace)
    return done


def test_files_and_folder_are_synced_around_the_rename(tmp_path: Path, deeds: list[tuple[str, str]]) -> None:
    """A table of contents is named only once all it lists is on the disk, and then the name is made to last."""
    index = SearchIndex(tmp_path)
    index.rebuild_from([Document("segment", 1, "open", "brass")], stamp=lambda: "1")
    place = folder.IndexFolder(tmp_path).present()
    assert place is not None
    named = [at for at, deed in enumerate(deeds) if deed[0] == "rename" and deed[1].endswith(".toc")][-1]
    segments = [path.name for path in place.glob("*.seg")]
    assert segments
    assert {("sync", name) for name in segments} <= set(deeds[:named])
    assert ("sync", place.name) == deeds[named - 1] == deeds[named + 1]
    assert deeds.index(("rename", "current")) > named
    assert deeds[-1] == ("sync", tmp_path.name)
    index.close()


def test_a_pointer_that_leads_elsewhere_is_not_followed(tmp_path: Path) -> None:
    """`current` names a sub-folder, never a path."""
    place = folder.IndexFolder(tmp_path)
    for written in ("../elsewhere", "", "/etc"):
        (tmp_path / "current").write_text(written)
        assert place.present() is None


def test_the_mark_changes_with_every_swap(tmp_path: Path) -> None:
    """So that another process notices without reading anything."""
    place = folder.IndexFolder(tmp_path)
    marks = {place.mark()}
    for _ in range(3):
        place.use(place.fresh())
        marks.add(place.mark())
    assert len(marks) == 4
