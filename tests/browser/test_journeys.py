"""Whole journeys by keyboard alone: a visitor, a reader and a guide each get their job done."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import sign_in_on, tab_to, until

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

WIDTHS = ((1920, 1080), (1280, 900), (820, 1180), (390, 844), (320, 640))
PLACES = {
    "visitor": ["/", "/sign-in", "/kiosk/", "/kiosk/?floor=cellar", "/kiosk/stations/st-dip", "/kiosk/processes/",
                "/kiosk/processes/pr-strike", "/kiosk/hazards/hz-acid", "/kiosk/objects/", "/kiosk/objects/TY.1984.20",
                "/kiosk/terms/", "/kiosk/people/P-01", "/kiosk/interviews/I-01", "/kiosk/voices/", "/kiosk/voices/C-01",
                "/kiosk/nowhere"],
    "reader": ["/reading/", "/reading/?q=brass", "/reading/interviews/", "/reading/interviews/I-01",
               "/reading/accounts/", "/reading/nowhere"],
    "guide": ["/desk/", "/desk/tours/t-metal", "/desk/tours/t-quiet/sheet", "/desk/stations/st-drop-stamp"],
    "keeper": ["/workroom/"],
}  # fmt: skip


@pytest.fixture
def scriptless(browser: Browser, site: str) -> Iterator[Page]:
    """A page in a browser that runs no script."""
    with browser.new_context(base_url=site, java_script_enabled=False) as context:
        yield context.new_page()


def press_on(page: Page, wanted: Any, key: str = "Enter") -> None:
    """Reach a thing by Tab and press a key on it."""
    tab_to(page, wanted)
    page.keyboard.press(key)


def test_a_visitor_walks_hears_and_understands(page: Page) -> None:
    """From the plan to a station, to a voice with its captions in step, to the work it speaks of, and home."""
    page.goto("/kiosk/")
    press_on(page, page.locator(".spot[data-station=st-drop-stamp]"))
    page.wait_for_url("**/kiosk/stations/st-drop-stamp")
    press_on(page, page.locator("a.voice").first)
    page.wait_for_url("**/kiosk/voices/*")
    gate = page.locator(".gate > summary")
    if gate.count():
        press_on(page, gate)
    press_on(page, page.get_by_role("button", name="Play", exact=True))
    until(page, "!audio.paused && audio.currentTime > 0")
    now = page.locator(".line[aria-current]")
    first = now.locator(".line__text").inner_text()
    expect(page.locator(".caption--now")).to_contain_text(first)
    page.locator("audio").evaluate("audio => { audio.playbackRate = 4; }")
    expect(now.locator(".line__text")).not_to_have_text(first, timeout=20_000)
    expect(page.locator(".caption--now")).not_to_contain_text(first)
    press_on(page, page.locator("a[href^='/kiosk/processes/pr-']").first)
    page.wait_for_url("**/kiosk/processes/pr-*")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    press_on(page, page.get_by_role("link", name="Plan", exact=True))
    page.wait_for_url("**/kiosk/")


def test_a_reader_finds_hears_and_takes_away_the_minute(page: Page) -> None:
    """From signing in to a narrowed search, to the hit at its time, by keys through the sound, to a lasting link."""
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    sign_in_on(page, "reader")
    page.wait_for_url("**/reading/")
    tab_to(page, page.get_by_role("searchbox"))
    page.keyboard.type("brass")
    page.keyboard.press("Enter")
    expect(page.locator("[data-count]")).to_be_focused()
    page.goto(page.url)
    press_on(page, page.locator(".narrowing li a").first)
    expect(page.locator(".chosen a")).to_have_count(1)
    press_on(page, page.locator(".hit-read").first)
    page.wait_for_url("**/reading/interviews/*")
    line = page.locator(".line[aria-current]")
    expect(line).to_be_in_viewport()
    start = float(line.get_attribute("data-start") or "nan") / 1000
    until(page, f"Math.abs(audio.currentTime - {start}) < 0.1")
    page.keyboard.press("Space")
    until(page, f"!audio.paused && audio.currentTime > {start}")
    page.keyboard.press("Space")
    until(page, "audio.paused")
    page.keyboard.press("ArrowRight")
    until(page, f"audio.currentTime > {start} + 4.9")
    side = page.locator(".line-side").first
    press_on(page, side.locator("summary"))
    press_on(page, side.get_by_role("button", name="Copy a link to this line"))
    expect(side.get_by_text("The link to this line is copied.")).to_be_visible()
    assert re.search(r"/reading/interviews/I-\d\d\?.*#t=[\d.]+", page.evaluate("navigator.clipboard.readText()"))


def test_a_guide_takes_a_tour_sheet_away(page: Page) -> None:
    """From signing in to a tour, to its sheet, to the printer; and on paper it is a few pages of A4."""
    page.add_init_script("window.print = () => { document.body.dataset.printed = 'yes'; };")
    sign_in_on(page, "guide")
    page.wait_for_url("**/desk/")
    press_on(page, page.get_by_role("link", name="Hard, soft and hard again, for people who know metal", exact=True))
    page.wait_for_url("**/desk/tours/t-metal")
    press_on(page, page.get_by_role("link", name="Tour sheet to print"))
    page.wait_for_url("**/desk/tours/t-metal/sheet")
    press_on(page, page.get_by_role("button", name="Print"))
    expect(page.locator("body")).to_have_attribute("data-printed", "yes")
    paper = page.pdf(prefer_css_page_size=True)
    assert 1 <= len(re.findall(rb"/Type\s*/Page\b(?!s)", paper)) <= 8
    assert re.search(rb"/MediaBox\s*\[0 0 59[45][.\d]* 84[12]", paper)


def test_an_idle_kiosk_goes_back_to_its_plan(page: Page) -> None:
    """After a minute and a half without a touch; the last twenty seconds are announced, and a key stops them."""
    page.clock.install()
    page.goto("/kiosk/objects/TY.1984.12")
    notice = page.locator(".leaving")
    page.clock.run_for(69_000)
    expect(notice).to_be_hidden()
    page.clock.run_for(3_000)
    expect(notice).to_be_visible()
    page.keyboard.press("Shift")
    expect(notice).to_be_hidden()
    page.clock.run_for(80_000)
    assert page.url.endswith("/kiosk/objects/TY.1984.12")
    page.clock.run_for(11_000)
    page.wait_for_url("**/kiosk/")


def test_a_visitor_without_script_gets_everywhere(scriptless: Page) -> None:
    """Plan, station, voice, work and home by plain links, and the voice has a player and its words."""
    scriptless.goto("/kiosk/")
    scriptless.locator(".spot[data-station=st-drop-stamp]").focus()
    scriptless.keyboard.press("Enter")
    scriptless.wait_for_url("**/kiosk/stations/st-drop-stamp")
    scriptless.locator("a.voice").first.click()
    scriptless.wait_for_url("**/kiosk/voices/*")
    gate = scriptless.locator(".gate > summary")
    if gate.count():
        gate.click()
    expect(scriptless.locator("audio[controls]")).to_be_visible()
    expect(scriptless.locator(".line__text").first).to_be_visible()
    scriptless.locator("a[href^='/kiosk/processes/pr-']").first.click()
    scriptless.wait_for_url("**/kiosk/processes/pr-*")
    scriptless.get_by_role("link", name="Plan", exact=True).click()
    scriptless.wait_for_url("**/kiosk/")


def test_a_search_without_script_is_asked_narrowed_and_opened(scriptless: Page) -> None:
    """Each step is an address of its own."""
    sign_in_on(scriptless, "reader")
    scriptless.get_by_role("searchbox").fill("brass")
    scriptless.keyboard.press("Enter")
    scriptless.wait_for_url("**/reading/?q=brass")
    fold = scriptless.locator(".narrowing-fold:not([open]) > summary")
    if fold.count():
        fold.click()
    scriptless.locator(".narrowing li a").first.click()
    expect(scriptless.locator(".chosen a")).to_have_count(1)
    scriptless.locator(".hit-read").first.click()
    expect(scriptless.locator(".line[aria-current]")).to_be_in_viewport()


@pytest.mark.parametrize("role", PLACES)
def test_no_page_is_wider_than_its_screen(page: Page, cookies_of: Callable[[str], Any], role: str) -> None:
    """From the largest kiosk to the smallest phone nothing has to be pushed sideways."""
    if role != "visitor":
        page.context.add_cookies(cookies_of(role))
    wide = []
    for address in PLACES[role]:
        page.goto(address)
        for width, height in WIDTHS:
            page.set_viewport_size({"width": width, "height": height})
            over = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
            wide += [f"{address} at {width}: {over} px"] if over > 0 else []
    assert wide == []
