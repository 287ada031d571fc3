"""What is checked before a machine is run for visitors, in words to confirm, and whether it may run at all. Pure."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from archive.objects.clearance import ClearanceState
from archive.objects.running.line import OFFERED, SOURCE, WORN, Line

RENEWS = "A keeper can renew it in the Workroom. Nobody can pass over it here."


@dataclass(frozen=True)
class Check:
    """One thing to confirm: its words, and why it is asked."""

    key: str
    words: str
    why: str


@dataclass(frozen=True)
class Operator:
    """A competent operator of a machine: the person's reference, the name as shown, the last day of the paper."""

    ref: str
    name: str
    until: dt.date


@dataclass(frozen=True)
class OpenFault:
    """A fault that no keeper has marked mended."""

    run: int
    noted_at: dt.datetime
    words: str


@dataclass(frozen=True)
class Subject:
    """What the rule is asked about: a demonstration on a day, with what its records say."""

    ref: str
    title: str
    machine: str
    machine_name: str
    minutes: float
    warm_up_minutes: float
    sudden: bool
    steps: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class Checks:
    """Whether a demonstration may start on a day, and what is confirmed first."""

    subject: Subject
    on: dt.date
    lacking: tuple[str, ...]
    until: dt.date | None
    operators: tuple[Operator, ...]
    line: Line
    checks: tuple[Check, ...]
    faults: tuple[OpenFault, ...]

    @property
    def may_run(self) -> bool:
        """Whether its papers hold on the day."""
        return not self.lacking

    def missing(self, operator: str, confirmed: Collection[str]) -> list[str]:
        """What still stands between these confirmations and the start, in words; empty when it may start."""
        left = [each.words for each in self.checks if each.words not in confirmed]
        return [*self.lacking, *self.unnamed(operator), *left]

    def unnamed(self, operator: str) -> list[str]:
        """That someone is not among the day's competent operators; empty when they are."""
        if any(each.ref == operator for each in self.operators):
            return []
        return ["The operator is not one of the competent operators named for this machine on the day."]


def checks_of(
    subject: Subject,
    on: dt.date,
    *,
    state: ClearanceState,
    operators: Sequence[Operator],
    line: Line,
    faults: Sequence[OpenFault] = (),
) -> Checks:
    """The checks of one day."""
    lacking = list(state.lacking)
    if not lacking and not operators:
        lacking.append("No competent operator can be named here for this day. Ask the keeper.")
    return Checks(
        subject=subject,
        on=on,
        lacking=tuple(lacking),
        until=state.until,
        operators=tuple(operators),
        line=line,
        checks=(*_machine(faults), *_place(line), *_ears(line), *_group(subject)),
        faults=tuple(faults),
    )


def _machine(faults: Sequence[OpenFault]) -> Iterator[Check]:
    yield Check(
        "fit",
        "I am named for this machine, I have read its operating instructions, and I am fit to run it now.",
        "A tired or hurried hand is how most accidents begin.",
    )
    if faults:
        yield Check(
            "faults",
            "I have looked at the open faults, and none of them puts anyone at risk.",
            "A fault stays open until a keeper marks it mended. If you are not sure, let the machine stand.",
        )
    yield Check(
        "guards",
        "Every guard is on, closed and sound.",
        "A moving part that can be reached will sooner or later be reached.",
    )
    yield Check(
        "second",
        "A second person watches the group and knows how to stop the machine.",
        "You cannot watch the work and the visitors at once.",
    )


def _place(line: Line) -> Iterator[Check]:
    yield Check(
        "line",
        f"The group stands behind the line, {line.metres:g} m from the machine.",
        line.how,
    )
    yield Check(
        "exits",
        "The exits, and the ways to them, are free.",
        "Whoever wants to leave can do so at any moment, without passing the machine.",
    )


def _ears(line: Line) -> Iterator[Check]:
    level = "" if line.level_db is None else f"About {line.level_db} dB(A) at the line. "
    if line.group_ears == WORN:
        yield Check("ears", "Everyone in the group has protectors and wears them.", level + SOURCE)
    elif line.group_ears == OFFERED:
        yield Check("ears", "Protectors have been held out to everyone in the group.", level + SOURCE)
    if line.operator_ears == WORN:
        near = "" if line.operator_db is None else f"About {line.operator_db} dB(A) at one metre. "
        yield Check("operator-ears", "I wear protectors, and so does whoever stands at the machine.", near + SOURCE)


def _group(subject: Subject) -> Iterator[Check]:
    coming = "that the noise comes all at once" if subject.sudden else "how loud it will be"
    yield Check(
        "warned",
        f"I have told the group what will move, {coming}, and how I shall call the start.",
        "People who know what is coming stand still. Those who would rather not can go out first.",
    )
    yield Check(
        "pacemaker",
        "I have asked about pacemakers and other devices in the body.",
        "Motors, dynamos and magnets have fields around them. Whoever has such a device keeps the distance that their "
        "doctor gave, and waits outside if they do not know it. You ask all; nobody has to say why they go out.",
    )
    yield Check(
        "pregnancy",
        "I have asked whether anyone is pregnant, and offered a place outside.",
        "Ear protectors do not guard a child in the womb from loud or low noise, or from shaking floors.",
    )
    yield Check(
        "startle",
        "I have asked who is easily startled, or is hurt by loud or sudden noise.",
        "Someone who starts may step forward or fall. They can watch from the door or come back afterwards.",
    )
    yield Check(
        "hearing",
        "I have asked who hears badly or reads lips, and placed them where they see my face and hands.",
        "Behind protectors nobody hears a warning. Agree a sign for stop. Hearing aids are turned down or out first.",
    )
