"""What is confirmed before a start: the right checks, none forgotten, and never without papers in force."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from archive.objects.clearance import ClearanceState
from archive.objects.running.checks import Checks, OpenFault, Operator, Subject, checks_of
from archive.objects.running.line import NONE, OFFERED, WORN, Line

DAY = dt.date(2026, 11, 25)
UNTIL = dt.date(2030, 2, 10)
GOOD = ClearanceState(True, (), UNTIL)
LAPSED = ClearanceState(False, ("The risk assessment ran out on 31 March 2026.",), None)
IVY = Operator("P-5", "Ivy Croft", UNTIL)
QUIET = Line(2.0, 2.0, 1.1, 72, 79, NONE, NONE, "Because.")
PRESS = Subject("dm", "A blank is cut", "SM.1", "Fly press", 4.0, 2.0, False, ("Swing.",), ("Mind.",))


def checks(
    *,
    state: ClearanceState = GOOD,
    operators: tuple[Operator, ...] = (IVY,),
    line: Line = QUIET,
    sudden: bool = False,
    faults: tuple[OpenFault, ...] = (),
) -> Checks:
    """The checks of the day, with one thing changed."""
    subject = dataclasses.replace(PRESS, sudden=sudden)
    return checks_of(subject, DAY, state=state, operators=operators, line=line, faults=faults)


def all_words(of: Checks) -> list[str]:
    """Everything there is to confirm."""
    return [each.words for each in of.checks]


def test_a_lapsed_paper_stands_in_the_way_whatever_is_confirmed() -> None:
    """With every check confirmed the paper that ran out is still lacking."""
    asked = checks(state=LAPSED)
    assert not asked.may_run
    assert asked.missing("P-5", all_words(asked)) == ["The risk assessment ran out on 31 March 2026."]


@pytest.mark.parametrize("number", range(len(checks().checks)))
def test_each_check_left_out_is_lacking(number: int) -> None:
    """Whichever one is not confirmed is told, and only that."""
    words = all_words(checks())
    assert checks().missing("P-5", words[:number] + words[number + 1 :]) == [words[number]]


def test_someone_who_is_not_named_may_not_run_it() -> None:
    """Another person's reference, or none, is lacking an operator."""
    for other in ("P-1", ""):
        assert "not one of the competent operators" in checks().missing(other, all_words(checks()))[0]


def test_without_an_operator_who_can_be_named_it_may_not_run() -> None:
    """Papers in force whose operator is hidden from the viewer do not let anyone start."""
    assert not checks(operators=()).may_run


def test_all_confirmed_by_a_named_operator_is_enough() -> None:
    """Nothing is lacking then."""
    assert checks().missing("P-5", all_words(checks())) == []


def test_the_group_is_always_asked_for_what_cannot_be_seen() -> None:
    """Pacemakers, pregnancy, startle and hearing, with guards, line, warning and exits, at the quietest machine."""
    keys = {each.key for each in checks().checks}
    assert {"guards", "line", "exits", "warned", "pacemaker", "pregnancy", "startle", "hearing"} <= keys
    assert all(each.why for each in checks().checks)


@pytest.mark.parametrize(
    ("group", "operator", "keys"),
    [
        (NONE, NONE, set()),
        (OFFERED, NONE, {"ears"}),
        (OFFERED, WORN, {"ears", "operator-ears"}),
        (WORN, WORN, {"ears", "operator-ears"}),
    ],
)
def test_protectors_are_asked_where_the_level_asks(group: str, operator: str, keys: set[str]) -> None:
    """None at a quiet machine; offered or worn by the group; worn by the operator."""
    line = dataclasses.replace(QUIET, group_ears=group, operator_ears=operator)
    assert {each.key for each in checks(line=line).checks} & {"ears", "operator-ears"} == keys


def test_offered_and_worn_are_told_apart_and_name_their_source() -> None:
    """The words say which of the two it is; the reason names the directive."""
    offered, worn = (checks(line=dataclasses.replace(QUIET, group_ears=ears)) for ears in (OFFERED, WORN))
    told = [next(each for each in one.checks if each.key == "ears") for one in (offered, worn)]
    assert "held out" in told[0].words
    assert "wears" in told[1].words
    assert all("2003/10/EC" in each.why for each in told)


def test_an_open_fault_is_one_more_check() -> None:
    """It has to be looked at before the machine is started."""
    fault = OpenFault(1, dt.datetime(2026, 11, 1, 10), "The stop is loose.")
    assert "faults" in {each.key for each in checks(faults=(fault,)).checks}
    assert "faults" not in {each.key for each in checks().checks}


def test_a_sudden_noise_is_named_in_the_warning() -> None:
    """The group is told that it comes all at once."""
    warned = next(each for each in checks(sudden=True).checks if each.key == "warned")
    assert "all at once" in warned.words
