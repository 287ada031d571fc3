"""The device that a tour is given with reckons by the rules of the house: what to drop, and when each stop is due."""

from __future__ import annotations

import random
from typing import Any

import pytest
from playwright.sync_api import Page

from archive.tours.given.dropping import Droppable, what_to_drop
from archive.tours.given.planned import due_stops, from_data

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]


def test_the_device_drops_by_the_same_rule(page: Page) -> None:
    """Python and script agree on every choice in five hundred seeded cases, the largest of ninety tellings."""
    chance = random.Random(4)
    cases = []
    for number in range(500):
        count = 90 if number % 50 == 0 else chance.randrange(12)
        tellings = [
            {"ref": f"tl-{place}", "minutes": chance.randrange(1, 60) / 10, "pinned": chance.random() < 0.2}
            | ({"worth": chance.randrange(80) / 10} if chance.random() < 0.5 else {})
            | ({"late": chance.randrange(-60, 120) / 10} if chance.random() < 0.2 else {})
            for place in range(count)
        ]
        cases.append([tellings, chance.randrange(-20, 400) / 10 + chance.choice([0, 0.04, 0.0005])])
    page.goto("/")
    found = page.evaluate(
        """async (cases) => {
            const { whatToDrop } = await import("/static/js/desk/giving/dropping.js");
            const told = ({ tellings, saves, short }) => [tellings.map(({ ref }) => ref), saves, short];
            return cases.map(([tellings, over]) => whatToDrop([{ tellings }], over).map(told));
        }""",
        cases,
    )
    wanted = [what_to_drop([Droppable(**telling) for telling in tellings], over) for tellings, over in cases]
    assert found == [[[list(drop.tellings), drop.saves, drop.short] for drop in drops] for drops in wanted]
    assert sum(len(drops) == 2 for drops in wanted) > 50


def test_the_device_keeps_time_by_the_same_rule(page: Page) -> None:
    """Python and script agree on two hundred seeded plans with machines to wait for; what is dropped saves as told."""
    chance = random.Random(5)
    plans = [[_seeded_stop(chance, f"st-{place}") for place in range(chance.randrange(2, 7))] for _ in range(200)]
    page.goto("/")
    found = page.evaluate(
        """async (plans) => {
            const { planned, progress, stillToCome } = await import("/static/js/desk/giving/progress.js");
            const { whatToDrop } = await import("/static/js/desk/giving/dropping.js");
            const line = (kind, minute, more = {}) => ({ kind, moment: minute * 60000, step: minute, ...more });
            return plans.map((stops) => {
                const plan = { stops, minutes: 0 };
                const lines = [line("started", 0)];
                const before = progress(plan, lines, 0);
                const drops = whatToDrop(stillToCome(plan, before), before.late).map((drop) => {
                    const gone = drop.tellings.map(({ ref }) => line("dropped", 0, { telling: ref }));
                    return [drop.saves, before.late - progress(plan, [...lines, ...gone], 0).late];
                });
                return [planned(plan).map(({ arrive, leave }) => [arrive, leave]), before.late, drops];
            });
        }""",
        plans,
    )
    for plan, (clock, ends, drops) in zip(plans, found, strict=True):
        due = due_stops(from_data(plan))
        leaves = [one.due + one.wait + one.planned.minutes for one in due]
        assert clock == [[pytest.approx(one.due), pytest.approx(end)] for one, end in zip(due, leaves, strict=True)]
        assert ends == pytest.approx(leaves[-1])
        assert drops
        assert all(saves == pytest.approx(truly, abs=0.001) for saves, truly in drops)
    assert sum(one.wait > 0 for plan in plans for one in due_stops(from_data(plan))) > 100


def _seeded_stop(chance: random.Random, station: str) -> dict[str, Any]:
    """A stop with one to three tellings, some of which may not begin before a minute of the tour."""
    told = [
        {"ref": f"tl-{station}-{number}", "minutes": chance.randrange(5, 60) / 10}
        | ({"not_before": chance.randrange(200) / 10} if chance.random() < 0.3 else {})
        for number in range(chance.randrange(1, 4))
    ]
    return {"station": station, "walk": chance.randrange(20) / 10, "tellings": told}
