"""A script held against the evidence: what it may not say, what it may, and what each sentence rests on."""

from __future__ import annotations

import pytest

from archive.evidence.standing import Standing
from archive.reckoners.registry import reckon
from archive.tours.telling.judging import Ground, Trouble, grave_count, judge

BLOW = reckon("press/drop-stamp-blow", {"mass": "40 lb", "fall": "about 1.7 m"})


def ground(text: str, standing: Standing, *texts: str) -> Ground:
    """A statement with the texts that bear it out."""
    return Ground("s-1", text, standing, texts)


OWN_TOOLS = ground("Press hands set their own tools.", Standing.CONTESTED)
BOILER = ground("The floorboards paid for the new boiler.", Standing.HANDED_DOWN)
TUNNEL = ground("A tunnel runs from the cellar to the river.", Standing.UNSUPPORTED)
FEEL = ground("She could feel the temper of a strip with her thumb.", Standing.RECALLED_BY_ONE)
PAY = ground("In 1951 small blanks paid a penny a gross.", Standing.DOCUMENTED, "Wages book 1951: 1d a gross")
STAMP = Ground("s-2", "The tup lands with about 300 joules.", Standing.COMPUTED, (), (BLOW,))


def troubles(script: str, *grounds: Ground) -> list[Trouble]:
    """Everything that is warned of, in order."""
    return [warning.trouble for sentence in judge(script, grounds) for warning in sentence.warnings]


@pytest.mark.parametrize(
    ("script", "on", "trouble"),
    [
        ("Press hands set their own tools.", OWN_TOOLS, Trouble.CONTESTED),
        ("They set their own tools, the press hands.", OWN_TOOLS, Trouble.CONTESTED),
        ("The floorboards paid for a new boiler.", BOILER, Trouble.HANDED_DOWN),
        ("A tunnel runs from this cellar to the river.", TUNNEL, Trouble.UNSUPPORTED),
        ("She could feel the temper of the strip with her thumb.", FEEL, Trouble.ONE_VOICE),
        ("In 1952 they put the rate up.", PAY, Trouble.FIGURE),
        ("Small blanks paid twopence a gross.", PAY, Trouble.FIGURE),
        ("The tup lands with about 400 joules.", STAMP, Trouble.FIGURE),
        ("There were seventeen presses here.", PAY, Trouble.FIGURE),
    ],
)
def test_what_says_more_than_the_evidence_is_warned_of(script: str, on: Ground, trouble: Trouble) -> None:
    """Each kind of saying too much."""
    assert trouble in troubles(script, on)


@pytest.mark.parametrize(
    ("script", "on"),
    [
        ("Some say that press hands set their own tools.", OWN_TOOLS),
        ("Press hands set their own tools. Others say they did not.", OWN_TOOLS),
        ("Accounts differ here. Press hands set their own tools.", OWN_TOOLS),
        ("Did press hands set their own tools?", OWN_TOOLS),
        ("The story goes that the floorboards paid for a new boiler.", BOILER),
        ("The floorboards paid for a new boiler. That is what some hands told us.", BOILER),
        ("There is a tale that a tunnel runs from this cellar to the river.", TUNNEL),
        ("A tunnel is said to run from this cellar to the river. Nobody has found it.", TUNNEL),
        ("She told us that she could feel the temper of the strip with her thumb.", FEEL),
        ("In 1951 small blanks were a penny a gross.", PAY),
        ("In nineteen fifty-one it was one penny the gross.", PAY),
        ("The tup lands with about three hundred joules.", STAMP),
        ("The tup weighs forty pounds.", STAMP),
    ],
)
def test_what_leaves_open_what_is_open_is_not(script: str, on: Ground) -> None:
    """Hedged in the sentence or beside it, asked, or borne out."""
    assert troubles(script, on) == []


def test_an_unsupported_statement_bears_no_figure_out() -> None:
    """Its own number is only its own word."""
    forty = ground("A tunnel of 40 metres runs to the river.", Standing.UNSUPPORTED)
    assert Trouble.FIGURE in troubles("The story is that the tunnel is 40 metres long.", forty)


def test_the_thing_in_the_hand_bears_its_own_figures_out() -> None:
    """What stands on the record of the thing shown needs no statement."""
    assert judge("This is check 112.", [], ("Brass check 112",))[0].warnings == ()


def test_of_a_contested_year_only_the_year_is_contested() -> None:
    """That it happened is not."""
    lifter = ground("The stamps were given a power lifter in 1952.", Standing.CONTESTED)
    assert troubles("One day a power lifter came to the stamps.", lifter) == []
    assert troubles("The stamps had a power lifter in 1952.", lifter) == [Trouble.CONTESTED]


def test_each_sentence_is_matched_by_itself() -> None:
    """What rests on nothing says so; one voice is a note and not grave."""
    judged = judge("Look up. She could feel the temper of a strip with her thumb.", [FEEL, PAY])
    assert [[one.text for one in sentence.grounds] for sentence in judged] == [[], [FEEL.text]]
    assert grave_count(judged) == 0
