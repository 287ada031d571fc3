"""Making and changing a tour in Chromium: by keyboard alone, by drag, and without an accessibility fault."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from archive.store.session import Store
from tests.browser.conftest import serving, sign_in_on, tab_to
from tests.browser.test_axe import RULES
from tests.conftest import app_of
from tests.copied_homes import copied

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

EDIT = "/desk/tours/t-school/edit"


@pytest.fixture(scope="module")
def bench_site(demo_home: Store, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The demo collection in a home of these tests' own, served; work in the background is done at once."""
    store = copied(demo_home, tmp_path_factory.mktemp("bench") / "home")
    yield from serving(app_of(store))
    store.close()


@pytest.fixture
def page(browser: Browser, bench_site: str) -> Iterator[Page]:
    """A guide's page, which must raise no script error."""
    complaints: list[str] = []
    with browser.new_context(base_url=bench_site, viewport={"width": 1280, "height": 900}) as context:
        context.set_default_timeout(40_000)
        page = context.new_page()
        page.on("pageerror", lambda error: complaints.append(str(error)))
        sign_in_on(page, "guide")
        yield page
    assert complaints == []


def stops(page: Page) -> list[str]:
    """The names of the stops in order."""
    return [name.removesuffix(" pinned") for name in page.locator(".held h3").all_inner_texts()]


def said(page: Page) -> str:
    """What is read out once a deed is done."""
    expect(page.locator("tour-bench")).not_to_have_attribute("aria-busy", "true")
    return page.locator("[data-live]").inner_text()


def press(page: Page, key: str) -> None:
    """Press a key that does a deed, and wait until the page shows what came of it."""
    version = page.locator("[name=version]").input_value()
    page.keyboard.press(key)
    expect(page.locator("[name=version]")).not_to_have_value(version)


def violations(page: Page) -> list[str]:
    """What axe finds."""
    results = Axe().run(page, options=RULES)
    return [f"{v['id']}: {v['help']} at {v['nodes'][0]['html'][:160]}" for v in results.response["violations"]]


def test_a_deed_that_fails_is_told_and_changes_nothing(page: Page) -> None:
    """Somebody else changed the tour meanwhile."""
    page.goto(EDIT)
    before = stops(page)
    other = page.context.new_page()
    other.goto(EDIT)
    grip = other.locator("[data-grip]").nth(1)
    grip.focus()
    press(other, "p")
    page.locator("[data-grip]").nth(2).focus()
    page.keyboard.press("Delete")
    expect(page.get_by_role("alert")).to_contain_text("Somebody changed this tour")
    assert stops(page) == before
    press(other, "p")


def test_a_tour_is_made_by_keyboard_alone(page: Page) -> None:
    """45 minutes from the demo: wished, planned, pinned, dropped, added, undone, finished."""
    page.goto("/desk/")
    tab_to(page, page.get_by_role("link", name="Make a tour"))
    page.keyboard.press("Enter")
    tab_to(page, page.get_by_label("How long it may take"))
    page.keyboard.type("45")
    tab_to(page, page.get_by_label("Machines", exact=True))
    page.keyboard.press("End")
    tab_to(page, page.get_by_role("button", name="Plan the tour"))
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile("/edit$"))
    planned = stops(page)
    assert len(planned) > 4

    tab_to(page, page.locator("[data-grip]").nth(2))
    press(page, "p")
    assert page.locator(".held").nth(2).get_attribute("class") == "held held--pinned"
    press(page, "ArrowUp")
    assert stops(page)[1] == planned[2]
    press(page, "ArrowDown")
    assert stops(page) == planned
    page.keyboard.press("Tab")
    tab_to(page, page.locator("[data-grip]").nth(4))
    press(page, "Delete")
    assert planned[4] not in stops(page)
    assert planned[4] in said(page)
    press(page, "Control+z")
    assert stops(page) == planned
    press(page, "Control+y")
    assert planned[4] not in stops(page)

    tab_to(page, page.locator(f".spare summary:has-text('{planned[4]}')"))
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    press(page, "Enter")
    assert planned[4] in stops(page)
    tab_to(page, page.get_by_role("button", name="Finish the rest for me"))
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile("/edit$"))
    expect(page.locator(".bench-sure")).to_contain_text("best", timeout=60_000)
    assert planned[2] in stops(page)


def test_the_focus_stays_where_it_was(page: Page) -> None:
    """On the same check after a move, on the next stop after a drop."""
    page.goto(EDIT)
    names = stops(page)
    page.locator("[data-grip]").nth(3).focus()
    press(page, "ArrowUp")
    focused = "document.activeElement.closest('[data-at]').querySelector('h3').firstChild.textContent.trim()"
    assert page.evaluate(focused) == names[3]
    press(page, "ArrowDown")
    press(page, "Delete")
    assert page.evaluate(focused) == names[4]
    press(page, "Control+z")


def test_a_stop_is_dragged_by_its_check(page: Page) -> None:
    """Over the stops that follow; Escape lets it be."""
    page.set_viewport_size({"width": 1280, "height": 2400})
    page.goto(EDIT)
    names = stops(page)
    drag(page, 1, 3)
    page.keyboard.press("Escape")
    page.mouse.up()
    assert stops(page) == names
    drag(page, 1, 3)
    version = page.locator("[name=version]").input_value()
    page.mouse.up()
    expect(page.locator("[name=version]")).not_to_have_value(version)
    assert stops(page)[:4] == [names[0], names[2], names[3], names[1]]
    press(page, "Control+z")


def drag(page: Page, stop: int, onto: int) -> None:
    """Take the check of a stop and carry it over the lower half of another."""
    grip = page.locator("[data-grip]").nth(stop)
    grip.scroll_into_view_if_needed()
    page.locator(".held").nth(stop).evaluate("stop => window.scrollTo(0, stop.offsetTop - 150)")
    start, over = grip.bounding_box(), page.locator(".held").nth(onto).bounding_box()
    assert start is not None
    assert over is not None
    page.mouse.move(start["x"] + 20, start["y"] + 20)
    page.mouse.down()
    page.mouse.move(start["x"] + 20, over["y"] + over["height"] * 0.8, steps=6)


def test_without_script_the_buttons_do_the_same(browser: Browser, bench_site: str) -> None:
    """By loading the page again."""
    with browser.new_context(base_url=bench_site, java_script_enabled=False) as context:
        page = context.new_page()
        sign_in_on(page, "guide")
        page.goto(EDIT)
        names = stops(page)
        page.locator(".held").nth(1).get_by_role("button", name="Later").click()
        expect(page.locator(".held h3").nth(1)).to_have_text(names[2])
        assert stops(page)[1:3] == [names[2], names[1]]
        page.get_by_role("button", name="Undo").click()
        expect(page.locator(".bench-said")).to_contain_text("Undone: ")
        assert stops(page) == names


@pytest.mark.parametrize("size", [(1280, 900), (390, 844)])
def test_its_pages_have_no_accessibility_fault(page: Page, size: tuple[int, int]) -> None:
    """The form, the form with faults, the bench with all that is left out, and the page that says why nothing fits."""
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.goto("/desk/tours/new")
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")
    assert violations(page) == []
    page.get_by_label("How long it may take").fill("5")
    page.get_by_label("How many people").fill("none")
    page.get_by_role("button", name="Plan the tour").click()
    assert violations(page) == []
    page.goto(EDIT)
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")
    assert violations(page) == []
    page.goto("/desk/tours/new")
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")
    page.get_by_label("Without steps").check()
    page.locator("#w-station-st-die-rack").select_option("must")
    page.get_by_role("button", name="Plan the tour").click()
    page.wait_for_url(re.compile("/desk/planning/"))
    assert violations(page) == []
    assert page.get_by_role("button", name="Plan again with that").count() > 0
