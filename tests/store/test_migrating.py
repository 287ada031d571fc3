"""Bringing an older home up to date."""

from __future__ import annotations

from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from sqlalchemy import inspect, text

from archive.errors import Conflict
from archive.records import metadata
from archive.settings import Settings
from archive.store import migrating
from archive.store.homes import make_home, open_home
from archive.store.session import open_engine


def test_a_home_that_is_not_there_is_not_made_by_opening(tmp_path: Path) -> None:
    """Opening says how to make one, and leaves no folder behind."""
    with pytest.raises(Conflict, match="init"):
        open_home(Settings(tmp_path / "nowhere"))
    assert not (tmp_path / "nowhere").exists()


def test_a_home_from_a_newer_version_is_refused(tmp_path: Path) -> None:
    """A database at a step that this version does not know is left alone."""
    settings = Settings(tmp_path)
    make_home(settings).close()
    engine = open_engine(settings.database)
    with engine.begin() as connection:
        connection.execute(text("update alembic_version set version_num = '9999'"))
    engine.dispose()
    with pytest.raises(Conflict, match="newer Lemel"):
        open_home(settings)


def test_a_new_home_is_what_the_records_say(tmp_path: Path) -> None:
    """The steps together make just the tables, columns and constraints of the mapped classes."""
    store = make_home(Settings(tmp_path))
    with store.engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), metadata) == []
        assert migrating.step_of(connection) == migrating.newest_step()
    store.close()


def test_every_constraint_of_the_records_is_in_a_new_home(tmp_path: Path) -> None:
    """Check constraints and foreign keys, which Alembic does not compare on SQLite, are there by name."""
    store = make_home(Settings(tmp_path))
    database = inspect(store.engine)
    for table in metadata.sorted_tables:
        named = {check["name"] for check in database.get_check_constraints(table.name)}
        declared = {check.name for check in table.constraints if check.__visit_name__ == "check_constraint"}
        assert {str(name) for name in declared} <= named, table.name
        assert len(database.get_foreign_keys(table.name)) == len(table.foreign_key_constraints), table.name
    store.close()


def test_an_older_home_keeps_its_rows_when_it_is_brought_up_to_date(tmp_path: Path) -> None:
    """A home at the first step, with rows that hang on one another, comes to the newest whole, closures guarded."""
    settings = Settings(tmp_path)
    migrating.upgrade(settings.database, to="0001")
    engine = open_engine(settings.database)
    with engine.begin() as connection:
        for statement in _ROWS:
            connection.execute(text(statement))
    engine.dispose()
    store = open_home(settings)
    with store.engine.connect() as connection:
        assert migrating.step_of(connection) == migrating.newest_step()
        assert connection.execute(text("select text from segment")).scalar() == "It were loud."
        masked = connection.execute(text("select masked_start_ms, masked_end_ms from closure order by id")).all()
        assert [tuple(row) for row in masked] == [(940, 2050), (0, 5000), (2940, 5100)]
        assert connection.exec_driver_sql("pragma foreign_key_check").fetchall() == []
        assert connection.exec_driver_sql("pragma foreign_keys").scalar() == 1
    store.close()


_ROWS = (
    "insert into kept_file (sha256, size, media_type, sound) values ('00', 1, 'audio/wav', 1)",
    "insert into interview (id, ref, title, place, language, summary, voice_note)"
    " values (1, 'I-1', 'A talk', '', 'en-GB', '', '')",
    "insert into recording (id, ref, interview_id, position, master_name, master_sha256, duration_ms, codec,"
    " sample_rate, channels) values (1, 'I-1-a', 1, 1, 'a.wav', '00', 5000, 'pcm', 8000, 1)",
    "insert into segment (id, recording_id, position, start_ms, end_ms, speaker_label, text)"
    " values (1, 1, 1, 0, 900, 'Ada', 'It were loud.')",
    "insert into closure (id, recording_id, start_ms, end_ms, reason) values (1, 1, 1000, 2000, 'asked')",
    "insert into closure (id, recording_id, start_ms, end_ms, reason) values (2, 1, 20, 4980, 'asked')",
    "insert into closure (id, recording_id, start_ms, end_ms, reason) values (3, 1, 3000, 5100, 'asked')",
)
