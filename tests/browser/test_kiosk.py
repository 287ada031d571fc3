"""The kiosk in a real browser: the plan under a finger, a voice with its words, the way back when nobody is there."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import SIZES

pytestmark = pytest.mark.browser

STATION = "/kiosk/stations/st-drop-stamp"
VOICE = "/kiosk/voices/C-01"


@pytest.fixture
def scriptless(browser: Browser, site: str) -> Iterator[Page]:
    """A page in a browser that runs no script."""
    with browser.new_context(base_url=site, java_script_enabled=False) as context:
        yield context.new_page()


def view(page: Page) -> list[float]:
    """The stretch of the plan that is shown."""
    return [float(number) for number in (page.locator(".plan__drawing").get_attribute("viewBox") or "").split()]


def idle(page: Page, after: int, warn: int) -> None:
    """Make the kiosk's patience short."""
    page.evaluate(
        "([after, warn]) => { const rail = document.querySelector('back-to-plan');"
        " rail.disconnectedCallback(); Object.assign(rail.dataset, {after, warn}); rail.connectedCallback(); }",
        [after, warn],
    )


def test_the_plan_works_without_script(scriptless: Page) -> None:
    """Floors, rooms, checks and words all lead on by plain links."""
    scriptless.goto("/kiosk/")
    scriptless.get_by_role("link", name="Upper floor", exact=True).click()
    scriptless.get_by_role("link", name="Look closer: Plating shop").dispatch_event("click")
    assert view(scriptless)[2] < 2000
    scriptless.goto(VOICE)
    assert scriptless.locator(".player__stage").is_hidden()
    scriptless.locator(".line a").nth(1).click()
    assert "t=" in scriptless.url


def test_a_check_is_reached_and_opened_by_keyboard(page: Page) -> None:
    """Tab reaches every check on the plan, and Enter opens it; then Back and the plan are in the rail."""
    page.goto("/kiosk/")
    page.locator(".spot").first.focus()
    page.keyboard.press("Tab")
    expect(page.locator(".spot").nth(1)).to_be_focused()
    page.keyboard.press("Enter")
    page.wait_for_url("**/kiosk/stations/*")
    page.get_by_role("link", name="Plan", exact=True).focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/kiosk/")


def test_buttons_bring_the_plan_closer(page: Page) -> None:
    """Closer and further change what is shown and never leave the drawing; a third button shows the whole again."""
    page.goto("/kiosk/")
    whole = view(page)
    for _ in range(9):
        page.get_by_role("button", name="Closer").click()
    assert view(page)[2] == pytest.approx(whole[2] / 6)
    for _ in range(9):
        page.get_by_role("button", name="Further").click()
    assert view(page) == pytest.approx(whole)
    page.get_by_role("button", name="Closer").click()
    page.get_by_role("button", name="Whole floor").click()
    assert view(page) == pytest.approx(whole)


def test_a_drag_moves_the_plan_and_opens_nothing(page: Page) -> None:
    """Dragging from a check moves the plan; letting go does not count as touching the check."""
    page.goto("/kiosk/")
    page.get_by_role("button", name="Closer").click()
    before = view(page)
    box = page.locator("[data-station=st-drop-stamp] .spot__touch").bounding_box()
    assert box
    page.mouse.move(box["x"] + 9, box["y"] + 9)
    page.mouse.down()
    page.mouse.move(box["x"] + 60, box["y"] + 9, steps=4)
    page.mouse.up()
    assert page.url.endswith("/kiosk/")
    assert view(page)[0] < before[0]


def test_a_visited_check_turns_until_the_visit_is_over(page: Page) -> None:
    """A station's check hangs turned after the visit, on plan and board; going back by idleness rights it."""
    page.goto(STATION)
    page.goto("/kiosk/")
    turned = page.locator(".check--visited")
    expect(turned).to_have_count(2)
    page.goto(STATION)
    idle(page, 1, 1)
    page.wait_for_url("**/kiosk/")
    expect(turned).to_have_count(0)


def test_a_touch_stops_the_countdown(page: Page) -> None:
    """The way back is announced with its seconds, and any touch takes the notice away."""
    page.goto(STATION)
    idle(page, 600, 600)
    notice = page.locator(".leaving")
    expect(notice).to_be_visible()
    expect(notice).to_contain_text("600 s")
    idle(page, 600, 1)
    page.mouse.click(5, 5)
    expect(notice).to_be_hidden()
    assert page.url.endswith(STATION)


def test_captions_follow_the_voice(page: Page) -> None:
    """A touched line plays from its time and stands large, then the next; a playing voice keeps the kiosk here."""
    page.goto(VOICE)
    line = page.locator(".line").nth(2)
    line.locator("a").click()
    expect(page.locator(".caption--now")).to_contain_text(line.locator(".line__text").inner_text())
    expect(line).to_have_attribute("aria-current", "true")
    expect(page.get_by_role("button", name="Pause")).to_be_visible()
    idle(page, 1, 1)
    page.locator("audio").evaluate("audio => { audio.playbackRate = 3; }")
    expect(page.locator(".line").nth(3)).to_have_attribute("aria-current", "true", timeout=15_000)
    assert page.url.endswith(VOICE)
    page.get_by_role("button", name="Pause").click()
    expect(page.get_by_role("button", name="Play", exact=True)).to_be_visible()


def test_a_word_is_explained_where_it_stands(page: Page) -> None:
    """Touching a marked word shows its meaning on the same page; Escape puts it away."""
    page.goto("/kiosk/processes/pr-strike")
    word = page.locator(".explained").first
    meaning = page.locator(f"#{word.get_attribute('popovertarget')}")
    word.click()
    expect(meaning).to_be_visible()
    page.keyboard.press("Escape")
    expect(meaning).to_be_hidden()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(
    "address", ["/kiosk/", STATION, VOICE, "/kiosk/processes/pr-anneal", "/kiosk/objects/TY.1984.12"]
)
def test_nothing_is_cut_off_or_too_small_to_touch(page: Page, size: str, address: str) -> None:
    """No page is wider than its screen, letters are 18 px at least (24 px at a kiosk), and rows fill a finger."""
    width, height = SIZES[size]
    page.set_viewport_size({"width": width, "height": height})
    page.goto(address)
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    letters = float(page.evaluate("parseFloat(getComputedStyle(document.body).fontSize)"))
    assert letters >= (18 if size == "phone" else 24)
    low = page.evaluate(
        "() => [...document.querySelectorAll('.hook, .voice, .row-link, .rail a, .floors a, .zoom button, .button')]"
        ".map(e => e.getBoundingClientRect()).filter(r => r.height && r.height < 56).length"
    )
    assert low == 0
