"""The index follows the records: what is committed is found, what is closed or deleted is not."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

import pytest
from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.accounts.model import Account
from archive.errors import NotReady
from archive.interviews.model import Interview, Segment, Tie
from archive.objects.model import MuseumObject
from archive.people.model import Person
from archive.plan.model import Room, Station
from archive.rights.model import Closure, Permission
from archive.search import keeping
from archive.search.asking import find
from archive.search.document import Document
from archive.search.following import follow
from archive.search.gateway import SearchIndex
from archive.search.keeping import bring_in_step
from archive.store.session import Store
from archive.terms.model import Term
from archive.values.timecode import Span
from tests.search.works import READER, STRANGER

Works = tuple[Store, SearchIndex]


@pytest.fixture
def following(own_works: Works) -> Works:
    """A home whose index follows its commits."""
    follow(*own_works)
    return own_works


def _total(works: Works, text: str) -> int:
    return find(*works, READER, text).total


def _segment(session: Session, begins: str) -> Segment:
    return session.scalars(select(Segment).where(Segment.text.startswith(begins))).one()


def test_a_change_is_found_after_its_commit(following: Works) -> None:
    """A changed text is found by its new words alone."""
    with following[0].changing("tests") as session:
        _segment(session, "The foreman counted").text = "The gaffer reckoned up the tally."
    assert (_total(following, "gaffer"), _total(following, "counted")) == (1, 0)


def test_only_the_interview_that_was_touched_is_indexed_anew(following: Works, monkeypatch: pytest.MonkeyPatch) -> None:
    """A changed segment has its own interview replaced, and nothing else."""
    put: list[str] = []

    def note(documents: Iterable[Document], **_more: object) -> None:
        put.extend(document.access for document in documents)

    store, index = following
    with store.session() as session:
        key = session.scalars(select(Interview.id).where(Interview.ref == "B")).one()
    monkeypatch.setattr(index, "put", note)
    with store.changing("tests") as session:
        _segment(session, "The foreman never").text = "The gaffer never came."
    assert set(put) == {f"i{key}"}


def test_rows_that_a_query_flushed_are_not_missed(following: Works) -> None:
    """A row is no longer new once an earlier query has flushed it; it is indexed all the same."""
    with following[0].changing("tests") as session:
        session.add(
            Term(ref="t-burr", preferred="burr", language="en-GB", meaning="A rough edge.", other_words=["rag"])
        )
        assert session.scalars(select(Term).where(Term.ref == "t-burr")).one()
    assert (_total(following, "burr"), _total(following, "rag")) == (1, 1)


def test_what_is_forgotten_is_not_indexed(following: Works) -> None:
    """A change that is rolled back leaves the index alone."""
    with pytest.raises(ZeroDivisionError), following[0].changing("tests") as session:
        _segment(session, "The foreman counted").text = "The gaffer reckoned."
        session.flush()
        raise ZeroDivisionError
    assert (_total(following, "gaffer"), _total(following, "counted")) == (0, 1)


def test_a_new_closure_takes_segments_and_clips_out(following: Works) -> None:
    """What overlaps a new closure leaves the index itself, not only the answers."""
    store, index = following
    with store.changing("tests") as session:
        first = _segment(session, "We set our own")
        session.add(Closure(Span(0, 1_000), (), 60_000, recording_id=first.recording_id, reason="Asked for."))
    assert (
        index.ask(
            "tools", frozenset({"open", *(f"i{key}" for key in range(20)), *(f"c{key}" for key in range(20))})
        ).total
        == 0
    )


def test_a_withdrawal_counts_at_once(following: Works) -> None:
    """Rights are asked of the records, so a withdrawn interview is gone with its commit."""
    assert _total(following, "vats") == 2
    with following[0].changing("tests") as session:
        interview = session.scalars(select(Interview).where(Interview.ref == "B")).one()
        assert interview.agreement is not None
        for permission in interview.agreement.permissions:
            permission.withdrawn_on = dt.date(2026, 1, 1)
    assert _total(following, "vats") == 0


def test_a_name_that_becomes_guarded_leaves_the_index(following: Works) -> None:
    """Once one purpose shows initials, the full name finds nothing for any purpose."""
    assert _total(following, "speaker:ada") == 3
    with following[0].changing("tests") as session:
        ada = session.scalars(select(Person).where(Person.ref == "P-A")).one()
        told = select(Permission).where(Permission.agreement_id.in_(_agreements(session, ada)))
        for permission in session.scalars(told.where(Permission.purpose == "web")):
            permission.name_form = "initials"
    assert (_total(following, "speaker:ada"), _total(following, "birch")) == (0, 0)
    assert _total(following, "speaker:P-A") == 3


def _agreements(session: Session, person: Person) -> list[int]:
    interviews = session.scalars(select(Interview).where(Interview.narrators.contains(person)))
    return [interview.agreement.id for interview in interviews if interview.agreement is not None]


def test_a_renamed_station_is_found_by_its_new_name(following: Works) -> None:
    """Segments, objects and processes that are tied to it are indexed anew."""
    with following[0].changing("tests") as session:
        session.scalars(select(Station)).one().name = "Long bench"
    page = find(*following, READER, "station:bench")
    assert {hit.kind for hit in page.hits} == {"segment", "object", "process", "statement"}
    assert _total(following, "station:presses") == 0


def test_a_new_tie_can_be_filtered_by(following: Works) -> None:
    """A tie is part of what is indexed of its segment."""
    with following[0].changing("tests") as session:
        press = session.scalars(select(MuseumObject)).one()
        session.add(Tie(segment=_segment(session, "The foreman counted"), object=press, state="accepted"))
    assert find(*following, READER, "foreman", {"object": ["SM.1"]}).total == 1


def test_what_is_deleted_is_gone(following: Works) -> None:
    """An interview takes its segments with it; an object goes alone."""
    with following[0].changing("tests") as session:
        session.delete(session.scalars(select(Interview).where(Interview.ref == "B")).one())
        session.delete(session.scalars(select(MuseumObject)).one())
    assert (_total(following, "vats"), _total(following, "kind:object")) == (0, 0)


def test_an_index_that_missed_a_change_is_made_again(own_works: Works) -> None:
    """A change that was not followed, as after a crash, is noticed by the stamp and put right."""
    store, index = own_works
    assert not bring_in_step(store, index)
    with store.changing("tests") as session:
        _segment(session, "The foreman counted").text = "The gaffer reckoned."
    assert _total(own_works, "gaffer") == 0
    assert bring_in_step(store, index)
    assert _total(own_works, "gaffer") == 1


def test_records_that_are_not_indexed_do_not_put_it_behind(own_works: Works) -> None:
    """An account added by a process that does not follow is no reason to make the index again."""
    store, index = own_works
    with store.changing("tests") as session:
        session.add(Account(name="guide", role="guide", password_hash="x"))
    assert not bring_in_step(store, index)


def test_a_record_without_a_document_keeps_it_in_step(following: Works) -> None:
    """A new station changes no document, yet the index knows of it."""
    store, index = following
    with store.changing("tests") as session:
        room = session.scalars(select(Room)).one()
        session.add(Station(ref="st-new", number=9, name="New bench", room=room, element="n", x=0, y=0))
    assert not bring_in_step(store, index)


def test_an_index_long_behind_says_so(own_works: Works, monkeypatch: pytest.MonkeyPatch) -> None:
    """For a while another process may still be writing it; after that it must be made again."""
    store, index = own_works
    with store.changing("tests") as session:
        _segment(session, "The foreman counted").text = "The gaffer reckoned."
    assert _total(own_works, "counted") == 1
    monkeypatch.setattr(keeping, "_GRACE_S", -1.0)
    with pytest.raises(NotReady, match="lemel reindex"):
        find(store, index, STRANGER, "foreman")
