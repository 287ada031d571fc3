"""Titles and summaries under the name that an agreement asks for."""

from __future__ import annotations

import pytest

from archive.people.model import Person
from archive.rights.naming import without_name


def _person(name: str, **more: str) -> Person:
    return Person(ref="P-1", name=name, **more)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Winifred Toller on plating", "W. T. on plating"),
        ("Mrs Toller's vats", "Mrs W. T.'s vats"),
        ("Winifred  Toller, Winifred to her friends", "W. T., W. T. to her friends"),
        ("What Toller Winifred said", "What W. T. said"),
        ("MRS TOLLER AND WINIFRED", "MRS W. T. AND W. T."),
        ("The tollers of Tollerton", "The tollers of Tollerton"),
    ],
)
def test_no_part_of_a_guarded_name_stays_in_a_title(text: str, shown: str) -> None:
    """A whole name and each part of it give way to the shown name; other words stay."""
    assert without_name(text, _person("Winifred Toller"), "W. T.") == shown


def test_an_open_name_stays() -> None:
    """A person shown by the own name is named as the title has it."""
    assert without_name("Ada Birch", _person("Ada Birch"), "Ada Birch") == "Ada Birch"


def test_firms_are_not_guarded() -> None:
    """A firm's name is no narrator's secret."""
    assert without_name("Marl & Fenn", _person("Marl & Fenn", kind="firm"), "M. F.") == "Marl & Fenn"


@pytest.mark.parametrize(
    ("name", "text", "shown"),
    [
        ("Mei Ng", "Mrs Ng in the loft", "Mrs X. in the loft"),
        ("Mrs Toller", "Mrs Ellery and Mrs Toller", "Mrs Ellery and X."),
        ("Una O'Dowd", "Una O’Dowd; Mrs O'Dowd", "X.; Mrs X."),
        ("J. de Lisle-Orme", "a day de Orme came", "a day de X. came"),
    ],
)
def test_short_and_crooked_names_are_guarded_too(name: str, text: str, shown: str) -> None:
    """A surname of two letters tells who it is; a form of address or a little word does not."""
    assert without_name(text, _person(name), "X.") == shown


def test_a_name_a_thousand_times_over_is_read_at_once() -> None:
    """The pattern has no two ways through a long row of names that ends in another word."""
    text = "Winifred Toller " * 5000 + "Tollerton"
    assert without_name(text, _person("Winifred Toller"), "W. T.") == "W. T. Tollerton"
