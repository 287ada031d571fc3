"""One tour from the wish to the log, by keyboard alone: planned, changed, printed, given out of reach, handed in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from archive.store.session import Store
from tests.browser.conftest import serving, sign_in_on, tab_to
from tests.conftest import app_of
from tests.copied_homes import copied

pytestmark = [pytest.mark.browser, pytest.mark.slow, pytest.mark.xdist_group("browser")]


@pytest.fixture
def page(browser: Browser, demo_home: Store, tmp_path: Path) -> Iterator[Page]:
    """A guide's tablet, on the demo collection in a home of this test's own."""
    store = copied(demo_home, tmp_path / "home")
    for address in serving(app_of(store)):
        with browser.new_context(base_url=address, viewport={"width": 820, "height": 1180}) as context:
            context.set_default_timeout(40_000)
            page = context.new_page()
            sign_in_on(page, "guide")
            yield page
    store.close()


def enter(page: Page, wanted: Locator) -> None:
    """Reach something by Tab and press Enter."""
    tab_to(page, wanted)
    page.keyboard.press("Enter")


def deed(page: Page, key: str) -> None:
    """A key that changes the tour; the page shows the new version."""
    version = page.locator("[name=version]").input_value()
    page.keyboard.press(key)
    expect(page.locator("[name=version]")).not_to_have_value(version)


def names(page: Page) -> list[str]:
    """The stops on the bench."""
    return [name.removesuffix(" pinned") for name in page.locator(".held h3").all_inner_texts()]


def test_a_tour_from_the_wish_to_the_log(page: Page) -> None:
    """Every step that a guide takes, without a mouse, and the network gone for the giving."""
    page.goto("/desk/")
    enter(page, page.get_by_role("link", name="Make a tour"))
    tab_to(page, page.get_by_label("How long it may take"))
    page.keyboard.type("45")
    enter(page, page.get_by_role("button", name="Plan the tour"))
    page.wait_for_url(re.compile("/edit$"))

    tab_to(page, page.locator("[data-grip]").nth(2))
    deed(page, "p")
    pinned, dropped = names(page)[2], names(page)[4]
    tab_to(page, page.locator("[data-grip]").nth(4))
    deed(page, "Delete")
    assert dropped not in names(page)
    enter(page, page.get_by_role("button", name="Finish the rest for me"))
    expect(page.locator(".bench-sure")).to_contain_text("best", timeout=60_000)
    page.wait_for_url(re.compile("/edit$"))
    given = names(page)
    assert pinned in given

    enter(page, page.get_by_role("link", name="Look at the tour"))
    page.wait_for_url(re.compile("/tours/[^/]+$"))
    enter(page, page.get_by_role("link", name="Tour sheet to print"))
    page.wait_for_url(re.compile("/sheet"))
    paper = page.pdf(prefer_css_page_size=True)
    assert 1 <= len(re.findall(rb"/Type\s*/Page\b(?!s)", paper)) <= 8
    assert re.search(rb"/MediaBox\s*\[0 0 59[45][.\d]* 84[12]", paper)

    enter(page, page.get_by_role("link", name="Give the tour"))
    page.wait_for_url(re.compile("/give"))
    expect(page.locator("pack-keeper[data-state=kept]")).to_contain_text("Kept here", timeout=60_000)
    page.context.set_offline(True)
    page.reload()
    expect(page.locator("pack-keeper[data-state=unreached]")).to_contain_text("Out of reach.")
    enter(page, page.get_by_role("button", name="Start"))
    for name in given[1:]:
        for words in (f"Leave for {name}", f"Arrived: {name}"):
            button = page.get_by_role("button", name=words)
            expect(button).to_be_visible()
            enter(page, button)
    tab_to(page, page.locator("#log-text"))
    page.keyboard.type("How many could she do in a minute?")
    enter(page, page.get_by_role("button", name="Write it down"))
    enter(page, page.get_by_role("button", name="Finish"))
    expect(page.locator("hand-in")).to_contain_text("Lines of the log that wait here")
    page.context.set_offline(False)
    expect(page.locator("hand-in[data-state=hand_done]")).to_contain_text("The log is handed in.")

    page.goto("/desk/outings/")
    enter(page, page.locator("tbody a").first)
    for name in given:
        expect(page.locator("main")).to_contain_text(name)
    expect(page.locator(".outing-written")).to_contain_text("How many could she do in a minute?")
