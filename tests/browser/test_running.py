"""Running a machine by keyboard alone: each check confirmed, started, stopped, written down; out of reach too."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import tab_to
from tests.browser.test_axe import RULES
from tests.conftest import TODAY

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

# Four and a half minutes, and what the test itself takes.
SINCE = re.compile(r"4:[345]\d")
FLY = "/desk/demonstrations/dm-fly"


@pytest.fixture
def guide(page: Page, cookies_of: Callable[[str], Any]) -> Page:
    """A guide's page on the day that all tests are set on, at ten in the morning."""
    page.context.add_cookies(cookies_of("guide"))
    page.clock.install(time=dt.datetime.combine(TODAY, dt.time(10), dt.UTC))
    return page


def faults(page: Page) -> list[str]:
    """What axe finds wrong with the page as it stands."""
    return [found["id"] for found in Axe().run(page, options=RULES).response["violations"]]


def confirm_all(page: Page) -> Locator:
    """Confirm each check with the space bar, in order; gives the start button."""
    boxes = page.get_by_role("checkbox")
    expect(boxes.first).to_be_visible()
    for number in range(boxes.count()):
        tab_to(page, boxes.nth(number))
        page.keyboard.press("Space")
    return page.get_by_role("button", name="Start the machine")


def test_a_lapsed_machine_offers_no_start(guide: Page) -> None:
    """The clipping press says which paper ran out and who can renew it; there is no button, not even hidden."""
    guide.goto("/desk/demonstrations/dm-clip")
    expect(guide.get_by_text("The risk assessment ran out on 31 March 2026.").first).to_be_visible()
    expect(guide.get_by_text("A keeper can renew it")).to_be_visible()
    assert guide.locator("start-check").count() == 0


def test_start_is_refused_until_each_check_is_confirmed(guide: Page) -> None:
    """Pressed too early the button leads to the first check that is lacking, and nothing runs."""
    guide.goto(FLY)
    start = guide.get_by_role("button", name="Start the machine")
    expect(start).to_have_attribute("aria-disabled", "true")
    tab_to(guide, start)
    guide.keyboard.press("Enter")
    expect(guide.get_by_role("checkbox").first).to_be_focused()
    expect(guide.get_by_role("timer")).to_have_count(0)
    assert faults(guide) == []


def test_confirmed_started_stopped_and_written_down_by_keyboard(guide: Page) -> None:
    """After four and a half minutes the log has the run with its fault, and the fault stands on the page."""
    guide.goto(FLY)
    start = confirm_all(guide)
    tab_to(guide, start)
    guide.keyboard.press("Enter")
    stop = guide.get_by_role("button", name="Stop")
    expect(stop).to_be_in_viewport()
    assert faults(guide) == []
    guide.clock.fast_forward("04:30")
    expect(guide.get_by_role("timer")).to_have_text(SINCE)
    guide.reload()
    expect(guide.get_by_role("timer")).to_have_text(SINCE)
    tab_to(guide, stop)
    guide.keyboard.press("Enter")
    expect(guide.get_by_label("Minutes that it ran")).to_have_value(re.compile(r"4\.[5-9]|5"))
    tab_to(guide, guide.get_by_label("Faults, if there were any"))
    guide.keyboard.type("The stop is loose.")
    assert faults(guide) == []
    tab_to(guide, guide.get_by_role("button", name="Write it in the log"))
    guide.keyboard.press("Enter")
    expect(guide.get_by_text("The run is in the log.")).to_be_visible()
    guide.goto("/desk/machines/TY.1984.20/log")
    row = guide.get_by_role("row").filter(has_text="The stop is loose.")
    expect(row).to_contain_text("Bethan Moss")
    expect(row.locator(".figure")).to_have_text(re.compile(r"4\.[5-9]|5"))
    guide.goto(FLY)
    expect(guide.get_by_role("heading", name="Open faults")).to_be_visible()


def test_out_of_reach_the_run_stays_on_the_device_and_is_handed_in_once(guide: Page) -> None:
    """Started and ended with the network gone, it is in the log once when the network is back."""
    guide.goto("/desk/demonstrations/dm-stamp")
    start = confirm_all(guide)
    guide.context.set_offline(True)
    start.press("Enter")
    expect(guide.get_by_text("The network is out of reach.")).to_be_visible()
    guide.clock.fast_forward("02:00")
    guide.get_by_role("button", name="Stop").press("Enter")
    guide.get_by_role("button", name="Write it in the log").press("Enter")
    expect(guide.get_by_text("It is handed in when the network is back.")).to_be_visible()
    guide.context.set_offline(False)
    expect(guide.get_by_text("The run is in the log.")).to_be_visible()
    guide.reload()
    expect(guide.get_by_role("button", name="Start the machine")).to_be_visible()
    assert guide.evaluate("localStorage.getItem('lemel-runs-ended')") == "[]"
    guide.goto("/desk/machines/TY.1984.12/log")
    expect(guide.get_by_role("row").filter(has_text="Jory Allard")).to_have_count(1)


def test_a_page_kept_past_its_papers_does_not_start(guide: Page) -> None:
    """Left open until after the last day, pressing start shows that the papers ran out."""
    guide.goto(FLY)
    start = confirm_all(guide)
    guide.clock.set_fixed_time(dt.datetime(2030, 2, 11, 10, tzinfo=dt.UTC))
    start.press("Enter")
    expect(guide.get_by_text("ran out on 10 February 2030")).to_be_visible()
    expect(guide.get_by_role("button", name="Start the machine")).to_have_count(0)


def test_where_nobody_hands_in_the_run_is_given_to_the_page(guide: Page) -> None:
    """On the giving page the element tells of the start and of the run, and lets go of what is taken."""
    guide.goto(FLY)
    guide.evaluate(
        """() => {
            const old = document.querySelector("start-check");
            const facts = old.facts;
            window.told = [];
            for (const name of ["machine-started", "machine-run"]) {
                document.addEventListener(name, (event) => {
                    told.push([name, event.detail.outing]);
                    event.preventDefault();
                });
            }
            const mine = document.createElement("start-check");
            mine.facts = facts;
            mine.dataset.outing = "outing-1";
            old.replaceWith(mine);
        }"""
    )
    confirm_all(guide).press("Enter")
    guide.get_by_role("button", name="Stop").press("Enter")
    guide.get_by_role("button", name="Write it in the log").press("Enter")
    expect(guide.get_by_role("button", name="Start the machine")).to_be_visible()
    assert guide.evaluate("told") == [["machine-started", "outing-1"], ["machine-run", "outing-1"]]
    assert guide.evaluate("localStorage.getItem('lemel-runs-ended')") == "[]"
