"""Writing a telling by keyboard alone in a real browser: minutes and warnings beside the words, and undoing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from archive.settings import Settings
from archive.store.homes import make_home
from tests.browser.conftest import serving, sign_in_on, tab_to
from tests.browser.test_axe import RULES
from tests.conftest import app_of, fill, with_accounts
from tests.small_collection import write_small_collection

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

SCRIPT = "The press came by barge in 1912. Some say it was thrown in."


@pytest.fixture(scope="module")
def desk_site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The small collection served from a home of its own, since tellings are added to it."""
    folder = tmp_path_factory.mktemp("tellings")
    store = with_accounts(
        fill(make_home(Settings(folder / "home", testing=True)), write_small_collection(folder / "small"))
    )
    yield from serving(app_of(store))
    store.close()


@pytest.fixture
def desk(browser: Browser, desk_site: str) -> Iterator[Page]:
    """A guide's page, signed in; it must raise no script error."""
    complaints: list[str] = []
    with browser.new_context(base_url=desk_site, viewport={"width": 1280, "height": 900}) as context:
        context.set_default_timeout(15_000)
        page = context.new_page()
        sign_in_on(page, "guide")
        page.on("pageerror", lambda error: complaints.append(str(error)))
        yield page
    assert complaints == []


def type_in(page: Page, label: str, text: str) -> None:
    """Go to a field by Tab and type into it."""
    tab_to(page, page.get_by_label(label, exact=True))
    page.keyboard.type(text)


def tick(page: Page, label: str) -> None:
    """Go to a box by Tab and tick it with the space bar."""
    tab_to(page, page.get_by_role("checkbox", name=label))
    page.keyboard.press("Space")


def write_a_talk(page: Page, title: str) -> None:
    """Station, title, words, a statement found and ticked, theme and audience, all by keyboard."""
    page.goto("/desk/tellings/new?station=st-press")
    type_in(page, "Title", title)
    type_in(page, "Words", SCRIPT)
    type_in(page, "Find a statement", "barge")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Space")


def faults(page: Page) -> list[Any]:
    """What axe finds on the page."""
    return [one["id"] for one in Axe().run(page, options=RULES).response["violations"]]


def test_a_talk_is_written_kept_withdrawn_and_put_back_by_keyboard(desk: Page) -> None:
    """Its minutes and warnings stand beside the words before it is kept."""
    write_a_talk(desk, "How the press came")
    expect(desk.locator("[data-minutes]")).to_have_text("13 words, 0.1 min")
    expect(desk.locator(".tie:visible")).to_have_count(1)
    expect(desk.locator(".looked-warning--grave")).to_contain_text("1912")
    expect(desk.locator(".looked-line").first.locator(".standing")).to_have_text("documented")
    assert faults(desk) == []
    tick(desk, "Machines")
    tick(desk, "Adults")
    tab_to(desk, desk.get_by_role("button", name="Keep it"))
    desk.keyboard.press("Enter")
    desk.wait_for_url("**/desk/tellings/tl-press-came?did=kept")
    assert faults(desk) == []
    tab_to(desk, desk.get_by_role("button", name="Withdraw it"))
    desk.keyboard.press("Enter")
    expect(desk.get_by_role("button", name="Undo: put it back")).to_be_focused()
    desk.keyboard.press("Enter")
    expect(desk.get_by_text("Back in use.")).to_be_visible()


def test_what_was_typed_and_not_sent_is_brought_back(desk: Page) -> None:
    """After the page is left, its words and ticks are offered, and let go once they are kept."""
    write_a_talk(desk, "Left halfway")
    desk.goto("/desk/tellings/")
    desk.goto("/desk/tellings/new?station=st-press")
    assert desk.get_by_label("Words", exact=True).input_value() == ""
    tab_to(desk, desk.get_by_role("button", name="Bring back what I had typed"))
    desk.keyboard.press("Enter")
    expect(desk.get_by_label("Words", exact=True)).to_have_value(SCRIPT)
    expect(desk.get_by_label("Title", exact=True)).to_have_value("Left halfway")
    expect(desk.locator("[name=statements]:checked")).to_have_count(1)
    tick(desk, "Machines")
    tick(desk, "Adults")
    tab_to(desk, desk.get_by_role("button", name="Keep it"))
    desk.keyboard.press("Enter")
    desk.wait_for_url("**did=kept")
    desk.goto("/desk/tellings/new?station=st-press")
    expect(desk.locator(".offer")).to_be_hidden()


def test_only_the_fields_of_a_kind_are_shown(desk: Page) -> None:
    """The arrow keys go from kind to kind."""
    desk.goto("/desk/tellings/new?station=st-press")
    expect(desk.get_by_label("Voice", exact=True).and_(desk.locator("select"))).to_be_hidden()
    tab_to(desk, desk.get_by_role("radio", name="Talk"))
    desk.keyboard.press("ArrowRight")
    expect(desk.locator("#t-clip")).to_be_visible()
    expect(desk.locator("#t-minutes")).to_be_hidden()
    desk.keyboard.press("ArrowRight")
    expect(desk.locator("#t-object")).to_be_visible()
    expect(desk.locator("#t-minutes")).to_be_visible()
