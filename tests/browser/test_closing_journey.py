"""A keeper closes a passage by keyboard alone; at the kiosk it is silent and unread; and then it is undone."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Position, expect

from archive.store.session import Store
from tests.browser.conftest import serving, sign_in_on, tab_to, until
from tests.conftest import app_of
from tests.heard import loudness

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

CLOSURES = "/workroom/recordings/I-1-a/closures"
KIOSK = "/kiosk/interviews/I-1"
# Met once an edge is really heard.
PLAYED = "audio => audio.currentTime || new Promise(met => audio.addEventListener('timeupdate', met, {once: true}))"
# Places on the waveform, of which 15 seconds are drawn on 900 points or so.
FROM: Position = {"x": 260.0, "y": 60.0}
TO: Position = {"x": 300.0, "y": 60.0}
WORDS = "Are you two still at it?"


@pytest.fixture
def contexts(browser: Browser, home: Store) -> Iterator[tuple[BrowserContext, BrowserContext]]:
    """The keeper's browser and the kiosk's, on the small collection."""
    for site in serving(app_of(home)):
        with (
            browser.new_context(base_url=site, locale="en-GB") as keepers,
            browser.new_context(base_url=site) as kiosks,
        ):
            keepers.set_default_timeout(30_000)
            yield keepers, kiosks


def opened(context: BrowserContext, complaints: list[str]) -> Page:
    """A page of a browser; what its scripts complain of is written down."""
    page = context.new_page()
    page.on("pageerror", lambda error: complaints.append(str(error)))
    return page


def heard_at_kiosk(page: Page) -> bytes:
    """The sound that the kiosk's player gets for the interview."""
    page.goto(KIOSK)
    sources = page.locator("audio source").evaluate_all("all => all.map(each => each.src)")
    answer = page.request.get(sources[0])
    assert answer.ok, answer.status_text
    return answer.body()


def test_a_passage_is_closed_by_keyboard_and_masked_at_the_kiosk(
    contexts: tuple[BrowserContext, BrowserContext],
) -> None:
    """Times typed and nudged, looked at, heard, kept; the copies are made, the words are gone; one key undoes it."""
    complaints: list[str] = []
    page, kiosk = (opened(context, complaints) for context in contexts)
    keys = page.keyboard
    assert loudness(heard_at_kiosk(kiosk), 19_000, 20_500) > 0.3
    expect(kiosk.get_by_text(WORDS).first).to_be_attached()
    sign_in_on(page, "keeper")
    page.goto(CLOSURES)
    page.wait_for_selector("closure-room[data-ready]")
    keys.press("F2")
    until(page, "audio.currentTime > 0.2")
    keys.press("Alt+Home")
    keys.press("F2")
    expect(page.get_by_label("From", exact=True)).to_have_value(re.compile(r"0:00:0[0-9]\.\d{3}"))
    tab_to(page, page.get_by_label("From", exact=True))
    keys.press("Control+a")
    keys.type("0:19")
    keys.press("Tab")
    keys.type("0:20")
    for _ in range(5):
        keys.press("Shift+ArrowUp")
    expect(page.get_by_label("To", exact=True)).to_have_value("0:00:20.500")
    expect(page.locator("[data-masked='18940-20550']")).to_contain_text(WORDS)
    tab_to(page, page.get_by_label("Reason"))
    keys.type("A guest who did not agree.")
    keys.press("Tab")
    keys.type("03052031")
    tab_to(page, page.locator("[data-looked] [data-edge]").first)
    keys.press("Enter")
    expect(page.locator("[data-playing]")).to_have_count(1)
    page.locator("[data-edge-sound]").evaluate(PLAYED)
    keys.press("Escape")
    expect(page.locator("[data-playing]")).to_have_count(0)
    tab_to(page, page.get_by_role("button", name="Close it", exact=True))
    keys.press("Enter")
    expect(page.locator(".closing-done")).to_contain_text("It is closed from now on.")
    expect(page.get_by_text("The copies that readers hear are made for the closures as they are.")).to_be_visible()
    sound = heard_at_kiosk(kiosk)
    assert loudness(sound, 19_000, 20_500) < 1e-4
    assert min(loudness(sound, 18_500, 18_900), loudness(sound, 20_600, 21_000)) > 0.3
    assert WORDS not in kiosk.content()
    tab_to(page, page.locator(".closing-done button"))
    keys.press("Enter")
    expect(page.locator(".closing-done")).to_contain_text("It was undone.")
    assert loudness(heard_at_kiosk(kiosk), 19_000, 20_500) > 0.3
    expect(kiosk.get_by_text(WORDS).first).to_be_attached()
    page.wait_for_selector("canvas[data-drawn='0-15000']")
    page.locator("canvas").drag_to(page.locator("canvas"), source_position=FROM, target_position=TO)
    expect(page.get_by_label("To", exact=True)).not_to_have_value("")
    expect(page.locator("[data-masked]")).to_contain_text("told to keep my fingers out")
    assert complaints == []
