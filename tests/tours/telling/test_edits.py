"""Keeping tellings: what is refused, what closed things do, references, stamps, and what is written down."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from sqlalchemy import select, update
from sqlalchemy.orm import Session

from archive.errors import NotFound, Unacceptable
from archive.evidence.model import Statement
from archive.plan.model import Station
from archive.rights.decisions import Purpose, Role, Viewer
from archive.rights.model import Permission
from archive.store.model import Change
from archive.store.session import Store
from archive.tours.model import Telling
from archive.tours.queries import tellings_at
from archive.tours.telling import edits
from archive.tours.telling.asked import Asked, asked_like, stamp_of
from archive.tours.telling.queries import grounds_of, telling
from tests.conftest import TODAY

GUIDE = Viewer(Role.GUIDE, Purpose.TOUR, TODAY)
TALK = Asked(
    station="st-door",
    title="The brass check",
    script="You are standing where the hands came in.",
    language="en-GB",
    themes=("town",),
    audiences=("adults",),
    statements=("s-book",),
)


@pytest.fixture
def session(shared_home: Store) -> Iterator[Session]:
    """A session that changes the small collection, and forgets its changes at the end."""
    with shared_home.session() as session:
        session.info["who"] = "tests"
        yield session


def close_for_tours(session: Session) -> None:
    """Every narrator takes the tours back."""
    session.execute(update(Permission).where(Permission.purpose == "tour").values(allowed=False))
    session.expire_all()


def faults_of(session: Session, asked: Asked) -> dict[str, str]:
    """What is said of each field that is at fault."""
    with pytest.raises(Unacceptable) as refused:
        edits.add_telling(session, GUIDE, asked)
    return {fault.where: fault.found for fault in refused.value.faults}


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"title": ""}, "title"),
        ({"title": "x" * 301}, "title"),
        ({"script": " "}, "script"),
        ({"script": "a\x07b"}, "script"),
        ({"station": ""}, "station"),
        ({"station": "st-none"}, "station"),
        ({"kind": "song"}, "kind"),
        ({"themes": ()}, "themes"),
        ({"themes": ("love",)}, "themes"),
        ({"audiences": ()}, "audiences"),
        ({"depth": "deep"}, "depth"),
        ({"language": "English"}, "language"),
        ({"statements": ("s-none",)}, "statements"),
        ({"kind": "clip"}, "clip"),
        ({"kind": "clip", "clip": "C-9"}, "clip"),
        ({"kind": "object", "minutes": "2"}, "object"),
        ({"kind": "object", "object": "SM.2", "minutes": "soon"}, "minutes"),
        ({"kind": "object", "object": "SM.2", "minutes": "999"}, "minutes"),
        ({"kind": "object", "object": "SM.1", "minutes": "2"}, "object"),
        ({"kind": "demonstration", "demonstration": "dm-press", "station": "st-press", "minutes": "3"}, "minutes"),
        ({"kind": "demonstration", "demonstration": "dm-press", "minutes": "4"}, "demonstration"),
        ({"kind": "question", "minutes": ""}, "minutes"),
    ],
)
def test_what_cannot_be_kept_is_told_by_field(session: Session, change: dict[str, object], field: str) -> None:
    """One fault, at the field that has it."""
    assert set(faults_of(session, replace(TALK, **change))) == {field}


def test_a_closed_statement_is_refused_in_the_words_of_an_absent_one(session: Session) -> None:
    """Closed and absent are told alike."""
    close_for_tours(session)
    closed = faults_of(session, replace(TALK, statements=("s-tools",)))["statements"]
    absent = faults_of(session, replace(TALK, statements=("s-toads",)))["statements"]
    assert closed.replace("s-tools", "") == absent.replace("s-toads", "")
    heard = faults_of(session, replace(TALK, kind="clip", clip="C-1"))["clip"]
    assert heard == faults_of(session, replace(TALK, kind="clip", clip="C-9"))["clip"].replace("C-9", "C-1")


def test_a_telling_that_rests_on_what_is_closed_cannot_be_touched(session: Session) -> None:
    """Not found for each deed, and its ties stay as they are."""
    row = session.scalars(select(Telling).where(Telling.ref == "tl-welcome")).one()
    row.statements.append(session.scalars(select(Statement).where(Statement.ref == "s-tools")).one())
    session.flush()
    stamp = stamp_of(row)
    close_for_tours(session)
    for deed in (edits.withdraw, edits.restore):
        with pytest.raises(NotFound):
            deed(session, GUIDE, "tl-welcome")
    with pytest.raises(NotFound):
        edits.change_telling(session, GUIDE, "tl-welcome", TALK, stamp)
    assert [one.ref for one in row.statements] == ["s-book", "s-tools"]


def test_a_change_on_an_old_stamp_is_refused_and_changes_nothing(session: Session) -> None:
    """Somebody else was faster; their words stay."""
    stamp = stamp_of(telling(session, GUIDE, "tl-welcome"))
    edits.change_telling(session, GUIDE, "tl-welcome", replace(TALK, script="Theirs."), stamp)
    with pytest.raises(edits.Overtaken):
        edits.change_telling(session, GUIDE, "tl-welcome", replace(TALK, script="Mine."), stamp)
    assert telling(session, GUIDE, "tl-welcome").script == "Theirs."


def test_the_stamp_tells_of_ties_and_of_withdrawal(session: Session) -> None:
    """Not of columns alone."""
    row = telling(session, GUIDE, "tl-welcome")
    first = stamp_of(row)
    row.statements = []
    second = stamp_of(row)
    edits.withdraw(session, GUIDE, "tl-welcome")
    assert len({first, second, stamp_of(row)}) == 3


@pytest.mark.parametrize(
    ("change", "minutes"),
    [
        ({"script": "word " * 85}, 0.7),
        ({"kind": "clip", "clip": "C-1", "station": "st-press"}, 0.1),
        ({"kind": "object", "object": "SM.2", "minutes": "2,5"}, 2.5),
        ({"kind": "object", "object": "SM.1", "station": "st-press", "minutes": "1"}, 1.0),
        ({"kind": "demonstration", "demonstration": "dm-press", "station": "st-press", "minutes": "4.5"}, 4.5),
        ({"kind": "question", "minutes": "1.5"}, 1.5),
    ],
)
def test_each_kind_is_kept_with_its_minutes(session: Session, change: dict[str, object], minutes: float) -> None:
    """A talk by its words, a voice by its length, the others as they are typed; a lapsed machine may be kept."""
    row = edits.add_telling(session, GUIDE, replace(TALK, **change))
    assert row.minutes == minutes
    assert asked_like(row).statements == ("s-book",)


def test_a_reference_is_never_given_twice(session: Session) -> None:
    """Not while it is withdrawn, and not after it is gone."""
    first = edits.add_telling(session, GUIDE, TALK)
    assert first.ref == "tl-door-brass-check"
    edits.withdraw(session, GUIDE, first.ref)
    second = edits.add_telling(session, GUIDE, TALK)
    session.delete(second)
    session.flush()
    assert (second.ref, edits.add_telling(session, GUIDE, TALK).ref) == (f"{first.ref}-2", f"{first.ref}-3")


def test_a_withdrawn_telling_is_not_told_at_its_station_until_it_is_restored(session: Session) -> None:
    """It keeps all that it had."""
    door = session.scalars(select(Station).where(Station.ref == "st-door")).one()
    edits.withdraw(session, GUIDE, "tl-welcome")
    session.flush()
    assert tellings_at(session, GUIDE, door) == []
    edits.restore(session, GUIDE, "tl-welcome")
    session.flush()
    assert [row.ref for row in tellings_at(session, GUIDE, door)] == ["tl-welcome"]


def test_changed_ties_are_written_down(session: Session) -> None:
    """Who, and which statements before and after."""
    stamp = stamp_of(telling(session, GUIDE, "tl-welcome"))
    edits.change_telling(session, GUIDE, "tl-welcome", replace(TALK, statements=("s-rumour",)), stamp)
    session.flush()
    rows = session.scalars(select(Change).where(Change.record == "telling:tl-welcome"))
    ties = [row for row in rows if row.after and "statements" in row.after]
    assert [(row.who, row.before, row.after) for row in ties] == [
        ("tests", {"statements": ["s-book"]}, {"statements": ["s-rumour"]})
    ]


def test_only_open_evidence_bears_a_figure_out(session: Session) -> None:
    """A closed segment's words are not among the grounds, nor is a statement that it alone supports."""
    keys = {row.ref: row.id for row in session.scalars(select(Statement))}
    before = grounds_of(session, GUIDE, keys.values())
    assert before[keys["s-tools"]].texts
    close_for_tours(session)
    after = grounds_of(session, GUIDE, keys.values())
    assert keys["s-tools"] not in after
    assert after[keys["s-book"]].texts == before[keys["s-book"]].texts
