"""A withdrawn telling goes out into the folder as withdrawn, and comes back so."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import select, update

from archive.exchange.loading import load
from archive.exchange.writing import write_folder
from archive.store.session import Store
from archive.tours.model import Telling


def test_a_withdrawn_telling_is_written_and_read_back(home: Store, tmp_path: Path) -> None:
    """It keeps its reference taken; the others say nothing of it."""
    with home.changing("tests") as session:
        session.execute(update(Telling).where(Telling.ref == "tl-welcome").values(withdrawn=True))
    write_folder(home, tmp_path / "out")
    assert (tmp_path / "out" / "tellings.toml").read_text("utf-8").count("withdrawn = true") == 1
    load(home, tmp_path / "out", replace=True)
    with home.session() as session:
        assert session.scalars(select(Telling.ref).where(Telling.withdrawn)).all() == ["tl-welcome"]
