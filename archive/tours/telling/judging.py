"""A script held against the evidence: what each sentence rests on, and where it says more. Pure.

The rule reads words and cannot understand them: it is a second pair of eyes, and the guide decides.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from archive.evidence.standing import Standing
from archive.reckoners.following import strays
from archive.reckoners.shape import Result
from archive.tours.telling import hedges
from archive.tours.telling.figures import Figure, agree, claims, figures_in
from archive.tours.telling.resting import resting_on
from archive.tours.telling.sentences import sentences


@dataclass(frozen=True)
class Ground:
    """A statement that a telling rests on: its standing, the texts of what bears it out, and reckonings worked."""

    ref: str
    text: str
    standing: Standing
    texts: tuple[str, ...] = ()
    results: tuple[Result, ...] = ()


class Trouble(StrEnum):
    """What a sentence may do wrong."""

    UNSUPPORTED = "unsupported"
    CONTESTED = "contested"
    HANDED_DOWN = "handed down"
    ONE_VOICE = "one voice"
    FIGURE = "figure"


@dataclass(frozen=True)
class Warning:
    """Where a sentence says more than the evidence, and what its teller can do. The `what` is a figure or statement."""

    trouble: Trouble
    what: str

    @property
    def grave(self) -> bool:
        """Whether it must be looked at: one voice told plainly is a thing to know, and no more."""
        return self.trouble is not Trouble.ONE_VOICE


@dataclass(frozen=True)
class Judged:
    """A sentence, the statements it rests on, and its warnings."""

    text: str
    grounds: tuple[Ground, ...]
    warnings: tuple[Warning, ...]


def judge(script: str, grounds: Sequence[Ground], shown: Sequence[str] = ()) -> tuple[Judged, ...]:
    """Every sentence of a script; `shown` are texts of the thing that is in the hand or runs."""
    told = sentences(script)
    rests = [_grounds(sentence, grounds) for sentence in told]
    return tuple(
        Judged(sentence, rest, (*_certainty(told, place, rest), *_figures(sentence, grounds, shown)))
        for place, (sentence, rest) in enumerate(zip(told, rests, strict=True))
    )


def grave_count(judged: Sequence[Judged]) -> int:
    """How many warnings must be looked at."""
    return sum(warning.grave for sentence in judged for warning in sentence.warnings)


def _grounds(sentence: str, grounds: Sequence[Ground]) -> tuple[Ground, ...]:
    return tuple(grounds[place] for place in resting_on(sentence, [ground.text for ground in grounds]))


def _certainty(told: Sequence[str], place: int, rest: Sequence[Ground]) -> list[Warning]:
    if told[place].rstrip("\"”’' ").endswith("?"):
        return []
    found = []
    for ground in rest:
        trouble = _TROUBLES.get(ground.standing)
        if trouble is Trouble.CONTESTED and not _says_the_figure(told[place], ground):
            continue
        if trouble and not _left_open(told, place, trouble):
            found.append(Warning(trouble, ground.text))
    return found


def _says_the_figure(sentence: str, ground: Ground) -> bool:
    """Whether a sentence says the contested figure; of "in 1952" the year is contested, and not that it happened."""
    contested = figures_in(ground.text)
    return not contested or any(agree(mine, one) for mine in figures_in(sentence) for one in contested)


_TROUBLES = {
    Standing.UNSUPPORTED: Trouble.UNSUPPORTED,
    Standing.CONTESTED: Trouble.CONTESTED,
    Standing.HANDED_DOWN: Trouble.HANDED_DOWN,
    Standing.RECALLED_BY_ONE: Trouble.ONE_VOICE,
}


def _left_open(told: Sequence[str], place: int, trouble: Trouble) -> bool:
    """Whether this sentence, or one beside it, lets listeners know that it is not sure."""
    before = told[place - 1] if place else ""
    after = told[place + 1] if place + 1 < len(told) else ""
    if trouble is Trouble.UNSUPPORTED:
        return any(hedges.only_a_tale(sentence) for sentence in (told[place], before, after))
    if hedges.left_open(told[place]) or hedges.left_open(before):
        return True
    if trouble is Trouble.CONTESTED:
        return hedges.differs(after)
    return hedges.looks_back(after) and hedges.left_open(after)


def _figures(sentence: str, grounds: Sequence[Ground], shown: Sequence[str]) -> list[Warning]:
    known = [figure for text in shown for figure in figures_in(text)]
    for ground in grounds:
        if ground.standing is not Standing.UNSUPPORTED:
            known += [figure for text in (ground.text, *ground.texts) for figure in figures_in(text)]
    results = [result for ground in grounds for result in ground.results]
    return [
        Warning(Trouble.FIGURE, figure.written)
        for figure in claims(sentence)
        if not any(agree(figure, other) for other in known) and not any(_follows(figure, one) for one in results)
    ]


def _follows(figure: Figure, result: Result) -> bool:
    """Whether a figure is in a reckoning's answer or its range, or was given to it."""
    if figure.kind != "year" and not strays(figure.in_digits, result):
        return True
    given = (f"{taken.written} {taken.read_as}" for taken in result.taken)
    return any(agree(figure, other) for text in given for other in figures_in(text))
