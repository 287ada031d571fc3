"""A typed transcript brought in Chromium by keyboard alone: looked at, its speakers named once, kept."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from archive.store.session import Store
from tests.browser.conftest import SIZES, serving, sign_in_on, tab_to
from tests.browser.test_axe import RULES
from tests.conftest import app_of
from tests.copied_homes import copied
from tests.exchange.typed.documents import word

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

WORDS = "/workroom/recordings/I-02-a/words"
TURNS = (
    ("Interviewer:", "When did you begin at the stamps?"),
    ("Mr P.:", "[0:12] In the spring of 1944. (laughs)"),
    ("Interviewer:", "Was it loud?"),
    ("Mr P.:", "Loud? You could not hear (indistinct) for it."),
)


@pytest.fixture
def page(browser: Browser, demo_home: Store, tmp_path: Path) -> Iterator[Page]:
    """A keeper's page on the demo collection in a home of this test's own."""
    store = copied(demo_home, tmp_path / "home")
    complaints: list[str] = []
    for site in serving(app_of(store)):
        with browser.new_context(base_url=site, viewport={"width": 1280, "height": 900}) as context:
            context.set_default_timeout(30_000)
            page = context.new_page()
            page.on("pageerror", lambda error: complaints.append(str(error)))
            page.on("console", lambda message: complaints.append(message.text) if message.type == "error" else None)
            sign_in_on(page, "keeper")
            yield page
    store.close()
    assert complaints == []


def violations(page: Page) -> list[str]:
    """What axe finds, at desk size and on a phone, in the light and in the dark."""
    found = []
    for size, scheme in ((None, "light"), ("phone", "dark")):
        page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
        if size:
            page.set_viewport_size(dict(zip(("width", "height"), SIZES[size], strict=True)))  # type: ignore[arg-type]
        results = Axe().run(page, options=RULES)
        found += [f"{v['id']}: {v['help']} at {v['nodes'][0]['html'][:160]}" for v in results.response["violations"]]
    page.emulate_media(color_scheme="light")
    page.set_viewport_size({"width": 1280, "height": 900})
    return found


def test_a_word_document_is_brought_named_and_kept_by_keyboard(page: Page, tmp_path: Path) -> None:
    """The file is chosen; two speakers are named with the arrows; the page that follows tells the new version."""
    file = tmp_path / "osric.docx"
    file.write_bytes(word(TURNS, header="Works archive", front=["A talk at the stamps"]))
    page.goto(WORDS)
    chooser = page.get_by_label("Typed transcript")
    tab_to(page, chooser)
    chooser.set_input_files(file)
    tab_to(page, page.get_by_role("button", name="Show how it is understood"))
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="How the file is understood")).to_be_visible()
    expect(page.get_by_text("Works archive", exact=False).first).to_be_visible()
    assert violations(page) == []
    narrator = page.get_by_label("Mr P", exact=False)
    tab_to(page, narrator)
    page.keyboard.type("Osric")
    expect(narrator).to_have_value("P-02")
    asker = page.get_by_label("Interviewer", exact=False)
    asker.focus()
    page.keyboard.type("Edwin")
    expect(asker).to_have_value("P-21")
    tab_to(page, page.get_by_role("button", name="Show it anew"))
    page.keyboard.press("Enter")
    rows = page.locator(".words-lines tbody tr")
    expect(rows).to_have_count(4)
    expect(rows.nth(1)).to_contain_text("Osric Pell")
    expect(rows.nth(3)).to_contain_text("You could not hear [inaudible] for it.")
    tab_to(page, page.get_by_role("button", name="Keep these words"))
    page.keyboard.press("Enter")
    expect(page.get_by_role("status")).to_contain_text("as version 1 of the transcript")
    expect(page.get_by_role("link", name="osric.docx")).to_be_visible()
    assert violations(page) == []
