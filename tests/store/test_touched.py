"""Listeners are told what a commit touched, and only after it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import select

from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from archive.store.touched import Touched
from archive.terms.model import Term, TermRelation


@pytest.fixture
def told(tmp_path: Path) -> Iterator[tuple[Store, list[set[tuple[str, str]]]]]:
    """A store with a listener that writes down tables and references."""
    store = make_home(Settings(tmp_path / "home", testing=True))
    heard: list[set[tuple[str, str]]] = []
    store.after_commit(lambda records, _notes: heard.append({(record.table, record.ref) for record in records}))
    yield store, heard
    store.close()


def _term(ref: str) -> Term:
    return Term(ref=ref, preferred=ref, language="en-GB", meaning="", other_words=[])


def test_added_changed_and_deleted_are_told(told: tuple[Store, list[set[tuple[str, str]]]]) -> None:
    """Each commit by itself, rows that a query flushed before it as well."""
    store, heard = told
    with store.changing("tests") as session:
        session.add_all([_term("swarf"), _term("burr")])
        swarf = session.scalars(select(Term).where(Term.ref == "swarf")).one()
        swarf.meaning = "Turnings."
    with store.changing("tests") as session:
        session.delete(session.scalars(select(Term).where(Term.ref == "burr")).one())
    assert heard == [{("term", "swarf"), ("term", "burr")}, {("term", "burr")}]


def test_what_is_rolled_back_is_not_told(told: tuple[Store, list[set[tuple[str, str]]]]) -> None:
    """Neither then nor with the next commit."""
    store, heard = told
    with pytest.raises(ZeroDivisionError), store.changing("tests") as session:
        session.add(_term("swarf"))
        session.flush()
        raise ZeroDivisionError
    with store.changing("tests") as session:
        session.add(_term("burr"))
    assert heard == [{("term", "burr")}]


def test_a_row_tells_what_it_belongs_to(tmp_path: Path) -> None:
    """By column and key, since a deleted row can be asked no more."""
    store = make_home(Settings(tmp_path / "home", testing=True))
    heard: list[Touched] = []
    store.after_commit(lambda records, _notes: heard.extend(records))
    with store.changing("tests") as session:
        first, second = _term("swarf"), _term("burr")
        session.add_all([first, second])
        session.flush()
        first.relations.append(TermRelation(other=second, kind="related"))
    (relation,) = [record for record in heard if record.table == "term_relation"]
    assert dict(relation.belongs) == {"term_id": first.id, "other_id": second.id}
    store.close()
