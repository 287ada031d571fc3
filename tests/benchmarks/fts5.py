"""SQLite FTS5 doing the same job on the same database: rights, ranking, total, names and snippets of the top 20."""

from __future__ import annotations

import sqlite3
import time
from pathlib import Path
from typing import Any

from tests.benchmarks.generated import VIEWER

_OPEN = """
    r.interview_id in (select key from open_interview)
    and not exists (select 1 from closure c
                    where c.recording_id = s.recording_id and c.start_ms < s.end_ms and c.end_ms > s.start_ms)
"""
# The best of three ways of writing it: rank and limit first, names and snippets of the top 20 alone.
_TOP = f"""
    with top(key, score) as materialized (
        select spoken.rowid, spoken.rank from spoken
        join segment s on s.id = spoken.rowid join recording r on r.id = s.recording_id
        where spoken match :asked and {_OPEN} order by spoken.rank limit 20
    )
    select s.id, i.ref, i.title, r.ref, s.start_ms, s.end_ms, p.name, snippet(spoken, 0, '[', ']', '…', 40), top.score
    from top join spoken on spoken.rowid = top.key and spoken match :asked
    join segment s on s.id = top.key join recording r on r.id = s.recording_id
    join interview i on i.id = r.interview_id left join person p on p.id = s.speaker_id
    order by top.score
"""
_TOTAL = f"""
    select count(*) from spoken join segment s on s.id = spoken.rowid join recording r on r.id = s.recording_id
    where spoken match :asked and {_OPEN}
"""
_KEYS = """
    create temp table open_interview as select a.interview_id as key from agreement a
    join permission p on p.agreement_id = a.id
    where p.purpose = :purpose and p.allowed and (p.from_date is null or p.from_date <= :today)
    and (p.withdrawn_on is null or p.withdrawn_on > :today)
"""


class Fts5:
    """An FTS5 index beside the segments, asked straight through the driver; the open interviews are worked out once."""

    def __init__(self, database: Path) -> None:
        self._connection = sqlite3.connect(database, isolation_level=None)
        for pragma in ("journal_mode=WAL", "synchronous=FULL", "cache_size=-200000", "mmap_size=1000000000"):
            self._connection.execute(f"pragma {pragma}")
        self._connection.execute(_KEYS, {"purpose": VIEWER.purpose.value, "today": VIEWER.on.isoformat()})
        self._connection.execute("create unique index temp.open_key on open_interview(key)")

    def build(self) -> float:
        """Make the index; gives the seconds."""
        began = time.perf_counter()
        self._connection.execute(
            "create virtual table spoken using "
            "fts5(text, content='segment', content_rowid='id', tokenize='porter unicode61')"
        )
        self._connection.execute("insert into spoken(spoken) values ('rebuild')")
        return time.perf_counter() - began

    def replace(self, recording: int) -> None:
        """Take the segments of one recording out and put them in again, in one commit."""
        rows = self._connection.execute("select id, text from segment where recording_id = ?", (recording,)).fetchall()
        self._connection.execute("begin immediate")
        self._connection.executemany("insert into spoken(spoken, rowid, text) values ('delete', ?, ?)", rows)
        self._connection.executemany("insert into spoken(rowid, text) values (?, ?)", rows)
        self._connection.execute("commit")

    def find(self, asked: str) -> tuple[int, list[Any]]:
        """How many are open, and the top 20."""
        rows = self._connection.execute(_TOP, {"asked": asked}).fetchall()
        (total,) = self._connection.execute(_TOTAL, {"asked": asked}).fetchone()
        return total, rows

    def close(self) -> None:
        """Let go of the database."""
        self._connection.close()
