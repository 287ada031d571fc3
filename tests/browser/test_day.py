"""A day at the Desk, by keyboard alone: three departures, plan, fix, plan again, print; and no accessibility fault."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from archive.exchange.loading import load
from archive.settings import Settings
from archive.store.homes import make_home
from tests.browser.conftest import serving, sign_in_on, tab_to
from tests.browser.test_axe import RULES
from tests.conftest import app_of, with_accounts
from tests.small_collection import write_small_collection

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

DAY = "/desk/days/2026-12-02/"


@pytest.fixture
def desk(browser: Browser, tmp_path: Path) -> Iterator[Page]:
    """A guide signed in at a home of this test's own; a script error or a broken policy fails it."""
    complaints: list[str] = []
    store = make_home(Settings(tmp_path / "home", testing=True))
    load(store, write_small_collection(tmp_path / "small"))
    for base in serving(app_of(with_accounts(store))):
        with browser.new_context(base_url=base, viewport={"width": 1280, "height": 900}) as context:
            context.set_default_timeout(15_000)
            page = context.new_page()
            page.on("pageerror", lambda error: complaints.append(str(error)))
            sign_in_on(page, "guide")
            yield page
            assert complaints == []
    store.close()


def add(page: Page, guide: str) -> None:
    """Fill in the form of a departure by keyboard, from field to field, and send it with Enter."""
    tab_to(page, page.get_by_label("Tour", exact=True))
    page.keyboard.type("A short")
    page.keyboard.press("Tab")
    page.keyboard.type(guide)
    page.keyboard.press("Tab")
    page.keyboard.type("8")
    count = page.locator(".departure").count()
    page.keyboard.press("Enter")
    expect(page.locator(".departure")).to_have_count(count + 1)


def press(page: Page, name: str) -> None:
    """Reach a button by Tab and press it."""
    tab_to(page, page.get_by_role("button", name=name, exact=True).first)
    page.keyboard.press("Enter")


def faults(page: Page) -> list[Any]:
    """What axe-core finds."""
    return [(one["id"], one["nodes"][0]["html"][:160]) for one in Axe().run(page, options=RULES).response["violations"]]


def test_a_day_by_keyboard_alone(desk: Page) -> None:
    """Added, planned, fixed, planned again, and on to the sheet that prints."""
    desk.goto(DAY)
    for guide in ("Ada", "Ada", "Bea"):
        add(desk, guide)
    press(desk, "Plan the day")
    expect(desk.get_by_text("The day is planned.")).to_be_visible()
    times = desk.locator(".departure-facts strong").all_inner_texts()
    press(desk, "Fix departure A")
    expect(desk.locator(".departure-fixed")).to_have_count(1)
    press(desk, "Plan the day")
    expect(desk.get_by_text("Nothing that had a time was moved.")).to_be_visible()
    assert desk.locator(".departure-facts strong").all_inner_texts() == times
    assert faults(desk) == []
    press(desk, "Drop departure C")
    press(desk, "Undo")
    expect(desk.locator(".departure")).to_have_count(3)
    tab_to(desk, desk.get_by_role("link", name="Ada", exact=True))
    desk.keyboard.press("Enter")
    expect(desk.get_by_role("heading", name="Ada", exact=True)).to_be_visible()
    expect(desk.get_by_role("button", name="Print")).to_be_visible()
    assert faults(desk) == []
    assert len(desk.pdf(prefer_css_page_size=True)) > 5_000


@pytest.mark.parametrize("width", [390, 820])
def test_narrow_screens_are_not_moved_sideways(desk: Page, width: int) -> None:
    """Only the drawing is; the page itself fits."""
    desk.goto(DAY)
    add(desk, "Ada")
    press(desk, "Plan the day")
    expect(desk.get_by_text("The day is planned.")).to_be_visible()
    desk.set_viewport_size({"width": width, "height": 900})
    # What is measured before the page is laid out anew belongs to neither width.
    desk.evaluate("() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)))")
    assert desk.evaluate("document.documentElement.scrollWidth") == width
    assert faults(desk) == []
