"""A sum of the trade in a real browser: the answer follows the fields, and without script the form sends."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import SIZES

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]
BLOW = "/reckoners/press/drop-stamp-blow"


def test_a_fault_waits_until_the_field_is_left(page: Page) -> None:
    """While writing, a fault is not told and the last answer stands; when the field is left it stands beside it."""
    page.goto(BLOW)
    fall, fault = page.get_by_label("Fall of the working blow", exact=True), page.locator("#f-fall-fault")
    with page.expect_response(lambda answer: answer.status == 400):
        fall.fill("1.7 kg")
    expect(page.locator("[data-answer]")).to_contain_text("302 J")
    expect(fault).to_be_empty()
    fall.blur()
    expect(fault).to_contain_text("“kg” is a unit of mass")
    expect(fall).to_have_attribute("aria-invalid", "true")
    expect(page.get_by_role("alert")).to_contain_text("Fall of the working blow")
    fall.fill("1.7 m")
    expect(fault).to_be_empty()
    expect(page.get_by_role("alert")).to_have_count(0)


def test_the_answer_follows_the_field(page: Page) -> None:
    """Writing another figure changes the line, the working and the address, without loading the page anew."""
    page.goto(BLOW)
    page.evaluate("window.stayed = true")
    page.get_by_label("Fall of the working blow", exact=True).fill("0.85 m")
    expect(page.locator("[data-line]")).to_contain_text("151 J")
    expect(page.locator("[data-answer]")).to_contain_text("151 J")
    expect(page).to_have_url(re.compile(r"fall=0\.85"))
    assert page.evaluate("window.stayed")


def test_keys_beside_a_number_need_no_keyboard(page: Page) -> None:
    """On the kiosk a touch on + takes the fall up by a small step, and the answer follows."""
    page.set_viewport_size(dict(zip(("width", "height"), SIZES["kiosk-portrait"], strict=True)))
    page.goto(f"{BLOW}?face=kiosk")
    more = page.get_by_role("button", name="Fall of the working blow: more")
    assert more.bounding_box()["height"] >= 56
    more.click()
    expect(page.get_by_label("Fall of the working blow", exact=True)).to_have_value("1.8 m")
    expect(page.locator("[data-line]")).to_contain_text("320 J")
    page.get_by_role("button", name="Fall of the working blow: less").click()
    expect(page.locator("[data-line]")).to_contain_text("302 J")


@pytest.mark.parametrize("size", SIZES)
def test_no_page_is_wider_than_its_screen(page: Page, size: str) -> None:
    """The longest form fits every screen, so that nothing is read by moving sideways."""
    width, height = SIZES[size]
    page.set_viewport_size({"width": width, "height": height})
    for address in (BLOW, "/reckoners/hazard/hearing-loss", "/reckoners/", f"{BLOW}?face=kiosk"):
        page.goto(address)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), address


def test_the_form_sends_without_script(browser: Browser, site: str) -> None:
    """With script switched off, the form gives the same answer."""
    with browser.new_context(base_url=site, java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(BLOW)
        page.get_by_label("Fall of the working blow", exact=True).fill("0.85 m")
        page.get_by_role("button", name="Work it out").click()
        expect(page.locator("[data-answer]")).to_contain_text("151 J")
