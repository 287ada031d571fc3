"""How passages and interviews are cited."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from flask import Flask

from archive.web.reading.citation import Source, listed

SOURCE = Source(
    narrators=["Ada Birch"],
    title="Ada Birch, press hand",
    ref="I-1",
    held="May 2009",
    collection="The Small Works",
    place="Nether Sandle",
    read_on=dt.date(2026, 11, 25),
)


def test_a_passage_is_cited_with_all_that_finds_it_again(app: Flask) -> None:
    """Who speaks, in what, when held, which recording, from when to when, kept where, read when."""
    with app.test_request_context():
        assert SOURCE.passage("Ada Birch", "I-1-a", 4_000, 68_000) == (
            "Ada Birch, “Ada Birch, press hand”, interview I-1, held May 2009. Recording I-1-a, from 0:04 to 1:08. "
            "The Small Works, Nether Sandle. Read 25 November 2026."
        )


def test_a_whole_interview_is_cited_with_its_recordings(app: Flask) -> None:
    """Each recording stands in the citation with its length."""
    with app.test_request_context():
        cited = SOURCE.whole([("I-1-a", 24_000), ("I-1-b", 61_000)])
    assert "Recorded as I-1-a (0:24), I-1-b (1:01)." in cited


def test_what_is_not_known_is_left_out(app: Flask) -> None:
    """A citation without date or narrator has no gaps and no stray commas."""
    with app.test_request_context():
        cited = replace(SOURCE, narrators=[], held="").whole([("I-1-a", 24_000)])
    assert cited.startswith("“Ada Birch, press hand”, interview I-1. Recorded as")


@pytest.mark.parametrize(
    ("names", "words"), [([], ""), (["A"], "A"), (["A", "B"], "A and B"), (["A", "B", "C"], "A, B and C")]
)
def test_names_stand_in_a_row(app: Flask, names: list[str], words: str) -> None:
    """Several narrators are listed as a sentence would."""
    with app.test_request_context():
        assert listed(names) == words
