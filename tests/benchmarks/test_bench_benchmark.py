"""The transcript bench with 2,000 lines in Chromium: how soon it stands on the page, and how soon a letter does.

pytest tests/benchmarks/test_bench_benchmark.py -s -n 0
"""

from __future__ import annotations

import statistics
from collections.abc import Iterator
from itertools import cycle, islice
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright
from sqlalchemy import select

from archive.interviews.model import Recording
from archive.interviews.transcripts import queries
from archive.interviews.transcripts.edits import keep_lines
from archive.interviews.transcripts.lines import Line
from archive.store.session import Store
from tests.browser.conftest import _FLAGS, _chromium, serving, sign_in_on
from tests.conftest import app_of
from tests.copied_homes import copied

pytestmark = [pytest.mark.browser]

REF, LINES = "I-06-a", 2_000
# From the press of a key to the frame that shows it; the message comes after the frame is painted.
MEASURE = """() => {
    window.waits = [];
    const channel = new MessageChannel();
    let pressed = 0;
    channel.port1.onmessage = () => window.waits.push(performance.now() - pressed);
    addEventListener("keydown", (event) => {
        pressed = event.timeStamp;
        requestAnimationFrame(() => channel.port2.postMessage(0));
    }, true);
}"""
PAINTED = "() => performance.getEntriesByName('first-contentful-paint')[0].startTime"


@pytest.fixture
def long_home(demo_home: Store, tmp_path: Path) -> Iterator[Store]:
    """The demo with one transcript of 2,000 lines, every tenth of them doubtful."""
    store = copied(demo_home, tmp_path / "home")
    with store.changing("benchmark") as session:
        row = session.scalars(select(Recording).where(Recording.ref == REF)).one()
        step = row.duration_ms // LINES
        texts = islice(cycle(line.text for line in queries.lines_of(session, row)), LINES)
        people = cycle(["P-06", "P-21"])
        lines = [
            Line(at * step, (at + 1) * step, next(people), "", f"{text} {at}", 0.5, at % 10 == 0)
            for at, text in enumerate(texts)
        ]
        keep_lines(session, row, lines, who="benchmark", said="Made long", based_on=0)
    yield store
    store.close()


@pytest.fixture
def browser() -> Iterator[Browser]:
    """A Chromium of this benchmark's own."""
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=_chromium(), args=_FLAGS)
        yield chromium
        chromium.close()


def typed(page: Page, keys: str) -> list[float]:
    """How long each letter took to be seen, in milliseconds."""
    page.evaluate("window.waits.length = 0")
    for key in keys:
        page.keyboard.press(key)
        page.evaluate("() => new Promise(requestAnimationFrame)")
    return [float(each) for each in page.evaluate("window.waits")]


def told(name: str, figures: list[float]) -> None:
    """One line of the report."""
    worst = sorted(figures)[int(len(figures) * 0.95)]
    print(f"{name}: median {statistics.median(figures):.1f} ms, p95 {worst:.1f} ms, most {max(figures):.1f} ms")


def test_two_thousand_lines(long_home: Store, browser: Browser) -> None:
    """The figures of the note: first paint, all lines there, typing at both ends, a split, keeping."""
    for site in serving(app_of(long_home)):
        with browser.new_context(base_url=site, viewport={"width": 1280, "height": 900}) as context:
            page = context.new_page()
            sign_in_on(page, "keeper")
            paints = []
            for _ in range(5):
                page.goto(f"/workroom/recordings/{REF}/bench")
                page.wait_for_selector(f"[data-lines='{LINES}']")
                stands = page.evaluate("performance.getEntriesByName('lines-stand')[0].startTime")
                paints.append((page.evaluate(PAINTED), stands, page.evaluate("performance.now()")))
            for name, figures in zip(
                ("first paint", "first lines", "every line"), zip(*paints, strict=True), strict=True
            ):
                told(name, list(figures))
            page.wait_for_selector("transcript-bench[data-ready]")
            page.evaluate(MEASURE)
            told("a letter, first line", typed(page, "the stamp came down on the brass " * 3))
            page.evaluate(f"location.hash = '#line-{LINES}'")
            page.reload()
            page.wait_for_selector("transcript-bench[data-ready]")
            page.evaluate(MEASURE)
            told("a letter, last line", typed(page, "the stamp came down on the brass " * 3))
            told("a split", typed(page, ["Control+Enter"] * 5))  # type: ignore[arg-type]
            told("undo", typed(page, ["Control+z"] * 5))  # type: ignore[arg-type]
            before = page.evaluate("performance.now()")
            page.keyboard.press("Control+s")
            page.wait_for_selector('transcript-bench[data-kept="kept"]')
            print(f"kept: {page.evaluate('performance.now()') - before:.0f} ms")
    assert page.is_closed()
