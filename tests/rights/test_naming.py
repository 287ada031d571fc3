"""Under which name a person is shown."""

from __future__ import annotations

import pytest

from archive.people.model import Person
from archive.rights.decisions import Allowance
from archive.rights.naming import initials_of, shown_name

OWN, INITIALS = Allowance(True), Allowance(True, name_form="initials")
OTHER = Allowance(True, name_form="other", shown_as="A stamper")


def person(*, unnamed: bool = False, initials: str = "") -> Person:
    """A narrator of the name Ada Birch-Moss."""
    return Person(ref="P", name="Ada Birch-Moss", unnamed=unnamed, called="A hand", initials=initials, roles=[])


@pytest.mark.parametrize("allowances", [[], [OWN], [INITIALS], [OTHER], [OWN, OTHER]])
def test_an_unnamed_person_is_never_named(allowances: list[Allowance]) -> None:
    """Whatever the agreements say, neither the name nor its initials are shown."""
    shown = shown_name(person(unnamed=True), allowances)
    assert shown in {"A hand", "A stamper"}


@pytest.mark.parametrize(
    ("allowances", "shown"),
    [
        ([], "Ada Birch-Moss"),
        ([OWN], "Ada Birch-Moss"),
        ([INITIALS, OWN], "A. B. M."),
        ([OWN, OTHER, INITIALS], "A stamper"),
    ],
)
def test_the_most_guarded_form_wins(allowances: list[Allowance], shown: str) -> None:
    """Of several agreements, the one that shows least decides."""
    assert shown_name(person(), allowances) == shown


def test_initials_given_are_used_as_given() -> None:
    """The keeper's own spelling of the initials comes first; else they are taken from the name."""
    assert shown_name(person(initials="A.B."), [INITIALS]) == "A.B."
    assert initials_of("Nella Farrant") == "N. F."
