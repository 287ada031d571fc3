"""The bench in Chromium: twenty lines mended by keyboard alone, two keepers at once, and a page that is killed."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect
from sqlalchemy import select

from archive.interviews.model import Recording
from archive.interviews.transcripts import queries
from archive.interviews.transcripts.lines import Line
from archive.store.session import Store
from tests.browser.conftest import SIZES, serving, sign_in_on, until
from tests.browser.test_axe import RULES
from tests.conftest import app_of
from tests.copied_homes import copied

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

REF = "I-06-a"
BENCH = f"/workroom/recordings/{REF}/bench"
# A page of a keeper's, in a browser of its own.
Open = Callable[[], Page]


@pytest.fixture
def own_home(demo_home: Store, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """The demo collection in a home of this test's own."""
    store = copied(demo_home, tmp_path_factory.mktemp("bench") / "home")
    yield store
    store.close()


@pytest.fixture
def contexts(browser: Browser, own_home: Store) -> Iterator[Callable[[], BrowserContext]]:
    """Browsers that are signed in as the keeper."""
    opened: list[BrowserContext] = []
    for site in serving(app_of(own_home)):
        with browser.new_context(base_url=site) as context:
            sign_in_on(context.new_page(), "keeper")
            cookies = context.cookies()

        def new(base_url: str = site, known: Any = cookies) -> BrowserContext:
            context = browser.new_context(base_url=base_url, viewport={"width": 1280, "height": 900})
            context.set_default_timeout(40_000)
            context.add_cookies(known)
            opened.append(context)
            return context

        yield new
        for context in opened:
            context.close()


@pytest.fixture
def open_bench(contexts: Callable[[], BrowserContext]) -> Iterator[Open]:
    """Opens the bench; no page may raise a script error."""
    complaints: list[str] = []

    def new() -> Page:
        page = contexts().new_page()
        page.on("pageerror", lambda error: complaints.append(str(error)))
        return ready(page)

    yield new
    assert complaints == []


def ready(page: Page) -> Page:
    """The bench with all its lines."""
    page.goto(BENCH)
    page.wait_for_selector("transcript-bench[data-ready]")
    return page


def lines_in(store: Store) -> list[Line]:
    """The lines as the database has them."""
    with store.session() as session:
        return queries.lines_of(session, session.scalars(select(Recording).where(Recording.ref == REF)).one())


def keep(page: Page) -> None:
    """Keep now, and wait until it is."""
    page.keyboard.press("Control+s")
    page.wait_for_selector('transcript-bench[data-kept="kept"]')


def live(page: Page) -> str:
    """What is read out."""
    return page.locator("[data-live]").inner_text()


def test_twenty_lines_are_mended_by_keyboard_alone(open_bench: Open, own_home: Store) -> None:
    """Words, speakers, marks, times, split, join, doubt, tie, undo: all without a mouse, and all of it is kept."""
    before = lines_in(own_home)
    page = open_bench()
    keys = page.keyboard
    for _ in range(12):
        keys.press("Control+End")
        keys.type(" Mended.")
        keys.press("Alt+ArrowDown")
    keys.press("Control+Home")
    keys.press("Alt+u")  # 12: the first word is unclear
    keys.press("Alt+ArrowDown")
    keys.press("Control+End")
    keys.press("Alt+i")  # 13: inaudible at the end
    keys.press("Alt+ArrowDown")
    keys.press("Alt+o")  # 14: the other one speaks
    keys.press("Alt+ArrowDown")
    keys.press("Alt+Shift+]")  # 15: ends 100 ms later, and 10 ms earlier
    keys.press("Alt+[")
    keys.press("Alt+ArrowDown")
    keys.press("Alt+d")  # 16: doubtful
    keys.press("Alt+ArrowDown")
    keys.press("Control+Home")
    for _ in range(3):
        keys.press("ArrowRight")
    keys.press("Control+Enter")  # 17 is cut in two
    keys.press("Alt+ArrowDown")
    keys.press("Alt+j")  # 18 and 19 are joined
    keys.press("Alt+ArrowDown")
    keys.type("Not this. ")
    keys.press("Control+z")
    keep(page)
    after = lines_in(own_home)
    assert [line.text for line in after[:12]] == [f"{line.text} Mended." for line in before[:12]]
    word = before[12].text.split()[0]
    assert after[12].text.startswith(f"[unclear: {word}]")
    assert after[13].text == f"{before[13].text} [inaudible]"
    assert after[14].speaker != before[14].speaker
    assert after[15].end_ms - before[15].end_ms == 90
    assert after[16].doubtful
    assert (after[17].text, after[17].key) == (before[17].text[:3].strip(), before[17].key)
    assert after[18].text == before[17].text[3:].strip()
    assert after[19].text == f"{before[18].text} {before[19].text}"
    assert [line.bare for line in after[20:]] == [line.bare for line in before[20:]]


def test_undo_and_redo_go_all_the_way(open_bench: Open, own_home: Store) -> None:
    """Every deed is undone one by one to the beginning, and done again to the end."""
    before = lines_in(own_home)
    page = open_bench()
    deeds = ["Alt+j", "Alt+d", "Alt+o", "Alt+Shift+.", "Control+Enter", "Alt+Delete"]
    for deed in deeds:
        page.keyboard.press(deed)
    keep(page)
    there = [line.bare for line in lines_in(own_home)]
    assert there != [line.bare for line in before]
    for _ in deeds:
        page.keyboard.press("Control+z")
    page.keyboard.press("Control+z")
    assert live(page) == "There is nothing to undo."
    keep(page)
    assert [line.bare for line in lines_in(own_home)] == [line.bare for line in before]
    for _ in deeds:
        page.keyboard.press("Control+y")
    keep(page)
    assert [line.bare for line in lines_in(own_home)] == there


def test_a_killed_page_loses_nothing(contexts: Callable[[], BrowserContext], own_home: Store) -> None:
    """With the server out of reach, what was typed outlives the page, and is kept when it is opened again."""
    before = lines_in(own_home)
    context = contexts()
    page = ready(context.new_page())
    context.route("**/bench/lines", lambda route: route.abort())
    page.keyboard.press("Control+End")
    page.keyboard.type(" Typed last.")
    page.keyboard.press("Control+Enter")
    page.keyboard.type("Half ")
    page.close(run_before_unload=False)
    assert lines_in(own_home) == before
    context.unroute("**/bench/lines")
    again = ready(context.new_page())
    assert live(again) == "What had not been sent the last time is here again."
    keep(again)
    after = lines_in(own_home)
    assert f"{before[0].text} Typed last." == after[0].text
    assert after[1].text.startswith("Half")
    assert [line.bare for line in after[2:]] == [line.bare for line in before[1:]]
    assert again.evaluate("Object.keys(localStorage).filter(name => name.startsWith('lemel-bench:')).length") == 0


def test_two_keepers_at_once_overwrite_nothing(open_bench: Open, own_home: Store) -> None:
    """What only one changed is taken; what both changed is shown side by side, and the second chooses."""
    before = lines_in(own_home)
    first, second = open_bench(), open_bench()
    first.keyboard.press("Control+End")
    first.keyboard.type(" First.")
    first.keyboard.press("Alt+ArrowDown")
    first.keyboard.press("Control+End")
    first.keyboard.type(" Also first.")
    keep(first)
    second.keyboard.press("Control+End")
    second.keyboard.type(" Second.")
    for _ in range(2):
        second.keyboard.press("Alt+ArrowDown")
    second.keyboard.press("Control+End")
    second.keyboard.type(" Only second.")
    second.keyboard.press("Control+s")
    second.wait_for_selector("[data-panel=merge]:not([hidden])")
    sides = second.locator("[data-panel=merge] .side")
    assert sides.count() == 2
    assert "Second." in sides.nth(0).inner_text()
    assert "First." in sides.nth(1).inner_text()
    assert Axe().run(second, options=RULES).response["violations"] == []
    second.keyboard.press("ArrowDown")  # The second radio of the pair: theirs.
    second.keyboard.press("ArrowDown")
    expect(sides.nth(0).locator("input")).to_be_checked()
    second.keyboard.press("ArrowDown")
    second.keyboard.press("Enter")
    second.wait_for_selector('transcript-bench[data-kept="kept"]')
    after = [line.text for line in lines_in(own_home)]
    assert after[0] == f"{before[0].text} First."
    assert after[1] == f"{before[1].text} Also first."
    assert after[2] == f"{before[2].text} Only second."


def test_lines_of_two_are_together_without_asking(open_bench: Open, own_home: Store) -> None:
    """Where they changed different lines, the second is told and goes on; the cursor stays in its line."""
    before = lines_in(own_home)
    first, second = open_bench(), open_bench()
    first.keyboard.type("First. ")
    keep(first)
    second.keyboard.press("Alt+ArrowDown")
    second.keyboard.type("Second. ")
    keep(second)
    assert "keeper changed the transcript meanwhile" in live(second)
    second.keyboard.type("More. ")
    keep(second)
    after = [line.text for line in lines_in(own_home)]
    assert after[:2] == [f"First. {before[0].text}", f"Second. More. {before[1].text}"]


def test_it_plays_slower_at_the_same_pitch_and_back(open_bench: Open) -> None:
    """Play, slower, back two seconds, and the line that is heard is marked."""
    page = open_bench()
    page.keyboard.press("Alt+ArrowDown")
    page.keyboard.press("F8")
    page.keyboard.press("Alt+p")
    until(page, "audio.currentTime > 6.5 && !audio.paused")
    assert page.evaluate(
        "[document.querySelector('audio').playbackRate, document.querySelector('audio').preservesPitch]"
    ) == [0.9, True]
    assert page.locator(".mend--heard").count() == 1
    page.keyboard.press("F2")
    until(page, "audio.paused")
    now = page.evaluate("document.querySelector('audio').currentTime")
    page.keyboard.press("F4")
    assert abs(page.evaluate("document.querySelector('audio').currentTime") - (now - 2)) < 0.1
    page.wait_for_selector("canvas[data-drawn]")


def test_keys_are_changed_without_a_mouse(open_bench: Open) -> None:
    """The list opens by key; other keys are pressed for a deed, and do it from then on; a letter alone is refused."""
    page = open_bench()
    page.keyboard.press("F1")
    told = page.locator("[data-panel=keys] [data-told]")
    change = page.get_by_role("button", name=re.compile("Change ?: Play or pause"))
    expect(change).to_be_focused()
    page.keyboard.press("Enter")
    page.keyboard.press("x")
    assert "is needed for writing" in told.inner_text()
    page.keyboard.press("Alt+j")
    assert "“Join with the next line” had them" in told.inner_text()
    page.keyboard.press("Escape")
    expect(page.locator("textarea")).to_be_focused()
    page.keyboard.press("Alt+j")
    until(page, "!audio.paused")
    page.reload()
    page.wait_for_selector("transcript-bench[data-ready]")
    assert page.locator("[data-deed=play] kbd").text_content() == "Alt+J"


def test_find_and_replace_is_seen_first(open_bench: Open, own_home: Store) -> None:
    """The preview marks each place; what is chosen is replaced as one deed, undone as one."""
    page = open_bench()
    before = lines_in(own_home)
    page.keyboard.press("Alt+g")
    page.keyboard.type("polisher")
    page.keyboard.press("Tab")
    page.keyboard.type("buffer")
    page.keyboard.press("Enter")
    page.wait_for_selector("[data-found] ins")
    count = page.locator("[data-found] li").count()
    assert count == sum("polisher" in line.text.lower().replace("polishers", "") for line in before)
    assert lines_in(own_home) == before
    page.keyboard.press("Enter")
    keep(page)
    assert sum("buffer" in line.text.lower() for line in lines_in(own_home)) >= count
    page.keyboard.press("Control+z")
    keep(page)
    assert [line.bare for line in lines_in(own_home)] == [line.bare for line in before]


def test_a_passage_is_closed_and_a_tie_accepted_by_key(open_bench: Open, own_home: Store) -> None:
    """The chosen line's stretch is offered; the reason and the day are asked for; a suggestion is one key."""
    page = open_bench()
    page.wait_for_selector("[data-suggested] button")
    offered = page.locator("[data-suggested] button").first.get_attribute("data-name")
    page.keyboard.press("Alt+a")
    expect(page.locator("[data-tied]")).to_contain_text(offered or "nothing")
    page.keyboard.press("Control+z")
    expect(page.locator("[data-tied]")).not_to_contain_text(offered or "")
    page.keyboard.press("Alt+c")
    page.get_by_label("Reason").fill("Asked for")
    page.get_by_label("Look at it again on").fill("2031-05-03")
    page.keyboard.press("Enter")
    page.wait_for_selector(".mend--chosen.mend--closed")
    assert "closed" in page.locator(".mend--chosen .mend-marks").inner_text()


@pytest.mark.parametrize("panel", ["F1", "Alt+g", "Alt+c"])
@pytest.mark.parametrize("size", ["kiosk-landscape", "phone"])
def test_its_sheets_have_no_faults(open_bench: Open, panel: str, size: str) -> None:
    """Every sheet beside the lines, large and small."""
    page = open_bench()
    width, height = SIZES[size]
    page.set_viewport_size({"width": width, "height": height})
    page.keyboard.press(panel)
    found = Axe().run(page, options=RULES).response["violations"]
    assert [f"{v['id']}: {v['nodes'][0]['html'][:200]}" for v in found] == []
