"""SQLite FTS5 doing the same job on the same database: rights, ranking, total, names and snippets of the top 20.

It is asked in two ways: bare, straight through the driver, giving rows; and as Lemel would have to use it, through the
store's session and giving the same page of hits. Either way the open interviews are worked out once beforehand.
"""

from __future__ import annotations

import re
import sqlite3
import time
from pathlib import Path
from typing import Any

from sqlalchemy.orm import Session

from archive.search.asking import FoundRecord, Page
from archive.search.showing import Names, names_for
from archive.store.freshness import memory
from archive.store.session import Store
from archive.values.timecode import format_seconds, media_fragment
from tests.benchmarks.generated import VIEWER

_OPEN = """
    r.interview_id in (select key from open_interview)
    and not exists (select 1 from closure c
                    where c.recording_id = s.recording_id
                    and c.masked_start_ms < s.end_ms and c.masked_end_ms > s.start_ms)
"""
# The best of three ways of writing it: rank and limit first, names and snippets of the top 20 alone.
_TOP = f"""
    with top(key, score) as materialized (
        select spoken.rowid, spoken.rank from spoken
        join segment s on s.id = spoken.rowid join recording r on r.id = s.recording_id
        where spoken match :asked and {_OPEN} order by spoken.rank limit 20
    )
    select s.id, i.ref, i.title, r.ref, s.start_ms, s.end_ms, s.speaker_id, p.name,
           snippet(spoken, 0, '[', ']', '…', 40), top.score
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

    def page(self, store: Store, asked: str) -> Page:
        """The same page that Lemel's own search gives, through the store's session."""
        began = time.perf_counter()
        with store.session() as session:
            connection = session.connection()
            names = memory(session).get("fts5") or self._prepared(session)
            rows = connection.exec_driver_sql(_TOP, {"asked": asked}).fetchall()
            total = connection.exec_driver_sql(_TOTAL, {"asked": asked}).scalar_one()
            hits = [_hit(row, names.people.get(row[6], "")) for row in rows]
        return Page(asked, total, hits, {}, {}, "", (time.perf_counter() - began) * 1000)

    def _prepared(self, session: Session) -> Names:
        """Work out what is open, once for the store's connection."""
        driver: Any = session.connection().connection.dbapi_connection
        driver.execute("drop table if exists temp.open_interview")
        driver.execute(_KEYS, {"purpose": VIEWER.purpose.value, "today": VIEWER.on.isoformat()})
        driver.execute("create unique index temp.open_key on open_interview(key)")
        driver.execute("commit")
        driver.execute("begin")
        names = names_for(session, VIEWER)
        memory(session)["fts5"] = names
        return names

    def close(self) -> None:
        """Let go of the database."""
        self._connection.close()


_MARK = re.compile(r"\[([^]]*)]")


def _hit(row: Any, speaker: str) -> FoundRecord:
    key, interview, title, recording, start, end, _speaker_id, _name, marked, _score = row
    marks = tuple((at.start() - 2 * n, at.end() - 2 * n - 2) for n, at in enumerate(_MARK.finditer(marked)))
    asked = f"recording={recording}&t={format_seconds(start)}#{media_fragment(start, end)}"
    return FoundRecord(
        kind="segment",
        id=str(key),
        title=title,
        recording=recording,
        start=start,
        end=end,
        speaker=speaker,
        snippet=_MARK.sub(r"\1", marked),
        marks=marks,
        interview=interview,
        url=f"/reading/interviews/{interview}?{asked}",
    )
