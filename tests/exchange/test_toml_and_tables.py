"""TOML with the line of every key, tables, and prose with its front matter."""

from __future__ import annotations

import datetime as dt
import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.errors import Conflict
from archive.exchange.csv_tables import join_list, parse_table, write_table
from archive.exchange.faults import FaultList
from archive.exchange.front_matter import parse_prose, write_prose
from archive.exchange.toml_files import parse_toml, write_toml
from archive.exchange.toml_lines import find_lines


@pytest.mark.parametrize(
    ("text", "path", "line"),
    [
        ("a = 1\nb = 2\n", ("b",), 2),
        ("\n# a = 1\n[t]\nb = 2\n", ("t", "b"), 4),
        ("[[r]]\na = 1\n[[r]]\na = 2\n", ("r", 1, "a"), 4),
        ("[[r]]\n[[r.s]]\na = 1\n[[r]]\n[[r.s]]\n[[r.s]]\na = 2\n", ("r", 1, "s", 1, "a"), 7),
        ('a = """\nb = 1\n"""\nb = 2\n', ("b",), 4),
        ("a = '''\n[t]\n'''\nb = 2\n", ("b",), 4),
        ('a = [\n  "x = 1",\n]\nb = 2\n', ("b",), 4),
        ('a = "# no"\nb = 2 # yes\n', ("b",), 2),
        ('"a b" = 1\n', ("a b",), 1),
        ("a = {b = 1}\n", ("a", "b"), 1),
        ("[x.y]\nz = 1\n", ("x", "y", "z"), 2),
    ],
)
def test_the_line_of_a_key_is_found(text: str, path: tuple[str | int, ...], line: int) -> None:
    """Through tables, arrays of tables, text blocks, lists and remarks."""
    tomllib.loads(text)
    assert find_lines(text).line(path) == line


SCALARS = st.booleans() | st.integers(-(10**12), 10**12) | st.floats(-1e9, 1e9) | st.dates(dt.date(1000, 1, 1))
TEXTS = st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\r"))
VALUES = st.recursive(
    SCALARS | TEXTS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXTS, inner, max_size=3)
)


@given(st.dictionaries(TEXTS, VALUES, max_size=5))
def test_toml_that_is_written_is_read_again(values: dict[str, Any]) -> None:
    """By the standard library's own reader."""
    assert tomllib.loads(write_toml(values)) == values


@given(st.text() | st.text(st.sampled_from("ab=.[]{}\"'#\n\\ ,1")))
def test_any_text_gives_toml_or_faults(text: str) -> None:
    """No text ends in another error."""
    faults = FaultList()
    assert (parse_toml(text, "t.toml", faults) is None) == bool(faults.faults)


CELLS = st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\r\0"))


@given(st.lists(st.tuples(CELLS.filter(lambda cell: cell.strip()), CELLS), max_size=5))
def test_a_table_that_is_written_is_read_again(rows: list[tuple[str, str]]) -> None:
    """Commas, quotes and line ends inside cells included."""
    faults = FaultList()
    table = parse_table(write_table(("a", "b"), rows), "t.csv", ("a", "b"), faults)
    assert faults.faults == []
    assert [(row.cells["a"], row.cells["b"]) for row in table] == rows


def test_a_row_is_told_by_the_line_that_it_starts_on() -> None:
    """Though a row above it took three lines."""
    rows = parse_table('a,b\n"1\n2\n3",x\n\n4,y\n', "t.csv", ("a", "b"), FaultList())
    assert [row.place().line for row in rows] == [2, 6]


def test_an_entry_with_the_separator_is_not_written() -> None:
    """It would come back as two."""
    with pytest.raises(Conflict, match="cannot be written in a list cell"):
        join_list(["a; b"])


@given(st.text() | st.text(st.sampled_from('ab,"\n; ')))
def test_any_text_gives_rows_or_faults(text: str) -> None:
    """No text ends in another error."""
    parse_table(text, "t.csv", ("a", "b"), FaultList())
    parse_table("a,b\n" + text, "t.csv", ("a", "b"), FaultList())


@given(st.text() | st.text(st.sampled_from("+#ab= \n-1.")))
def test_any_text_gives_prose_or_faults(text: str) -> None:
    """No text ends in another error."""
    for whole in (text, "+++\n" + text, "+++\n+++\n" + text):
        parse_prose(whole, "t.md", ("A", "B"), FaultList())


def test_prose_that_is_written_is_read_again() -> None:
    """Front matter and sections, with the lines of both."""
    faults = FaultList()
    prose = parse_prose(write_prose({"ref": "x"}, [("A", "1. one\n\n### b"), ("B", "two")]), "t.md", ("A", "B"), faults)
    assert faults.faults == []
    assert prose is not None
    assert (prose.head.ref("ref"), prose.body("A"), prose.body("B")) == ("x", "1. one\n\n### b", "two")
    assert (prose.head.place("ref").line, prose.place("A").line, prose.place("B").line) == (2, 5, 11)
