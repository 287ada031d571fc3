"""What another process closes bites at once, before the index has followed."""

from __future__ import annotations

import datetime as dt
import sqlite3
from contextlib import closing

from archive.rights.decisions import Purpose, Role, Viewer
from archive.search.asking import find, suggest
from archive.search.gateway import SearchIndex
from archive.store.session import Store

READER = Viewer(Role.READER, Purpose.RESEARCH, dt.date(2026, 11, 25))


def elsewhere(home: Store, sql: str) -> None:
    """A change made by another process in plain SQL, of which the index is not told."""
    with closing(sqlite3.connect(home.settings.home / "lemel.sqlite")) as connection:
        assert connection.execute(sql).rowcount > 0
        connection.commit()


def test_a_closure_takes_its_words_out_of_counts_and_suggestions(home: Store) -> None:
    """Neither total, facets, suggestion nor correction tell of a segment that a guard reached a moment ago."""
    index = SearchIndex(home.settings.index)
    assert find(home, index, READER, "yella", {"kind": ["segment"]}).total == 1
    elsewhere(
        home,
        "insert into closure (recording_id, start_ms, end_ms, masked_start_ms, masked_end_ms, reason) "
        "select id, 18520, 19000, 18460, 19050, '' from recording where ref = 'I-1-a'",
    )
    page = find(home, index, READER, "yella", {"kind": ["segment"]}, limit=1, offset=1)
    assert (page.total, page.hits, dict(page.facets["interview"])) == (0, [], {})
    assert suggest(home, index, READER, "alwa") == []


def test_a_withdrawal_takes_the_interview_out(home: Store) -> None:
    """Found one moment, unknown the next, and by no correction either."""
    index = SearchIndex(home.settings.index)
    assert find(home, index, READER, "gross", {"kind": ["segment"]}).total == 1
    elsewhere(
        home,
        "update permission set withdrawn_on = '2026-01-01' where agreement_id in (select agreement.id from agreement "
        "join interview on interview.id = interview_id where interview.ref = 'I-2')",
    )
    assert find(home, index, READER, "gross", {"kind": ["segment"]}).total == 0
    assert find(home, index, READER, "forewomen").did_you_mean == ""
    assert suggest(home, index, READER, "forew") == []


def test_an_embargo_ends_at_midnight_and_not_before(home: Store) -> None:
    """The same index answers yesterday and today as the agreement has it."""
    index = SearchIndex(home.settings.index)
    elsewhere(home, "update permission set from_date = '2027-01-01' where purpose = 'research'")
    eve, day = (Viewer(Role.READER, Purpose.RESEARCH, on) for on in (dt.date(2026, 12, 31), dt.date(2027, 1, 1)))
    for _ in range(2):
        assert find(home, index, eve, "gross", {"kind": ["segment"]}).total == 0
        assert find(home, index, day, "gross", {"kind": ["segment"]}).total == 1
