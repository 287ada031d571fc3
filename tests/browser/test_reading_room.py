"""The Reading room in a browser: a transcript in step with its sound, and a search that goes on playing."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import sign_in_on

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]
INTERVIEW = "/reading/interviews/I-02"


@pytest.fixture(scope="module")
def signed(browser: Browser, site: str) -> Any:
    """The cookies of a reader who signed in once."""
    with browser.new_context(base_url=site) as context:
        sign_in_on(context.new_page(), "reader")
        return context.cookies()


@pytest.fixture
def reader(page: Page, signed: Any) -> Page:
    """A page of that reader."""
    page.context.add_cookies(signed)
    return page


def _until(page: Page, condition: str) -> None:
    """Wait until the first sound on the page is so. Playwright's own wait needs eval, which the policy forbids."""
    page.evaluate(
        f"""() => new Promise((met, late) => {{
            const audio = document.querySelector("audio");
            const look = () => (({condition}) ? met() : requestAnimationFrame(look));
            setTimeout(() => late(new Error(`not so at ${{audio.currentTime}} s`)), 30000);
            look();
        }})"""
    )


def _start_of(page: Page, number: int) -> float:
    return float(page.locator(".line").nth(number).get_attribute("data-start") or "nan") / 1000


def test_a_line_is_heard_by_a_click(reader: Page) -> None:
    """A click on a line plays from it, marks it, and puts its lasting link into the address."""
    reader.goto(INTERVIEW)
    reader.locator(".line-text").nth(3).click()
    _until(reader, f"!audio.paused && audio.currentTime >= {_start_of(reader, 3)}")
    expect(reader.locator(".line").nth(3)).to_have_attribute("aria-current", "true")
    expect(reader.get_by_role("button", name="Pause")).to_be_visible()
    assert re.search(r"#t=[\d.]+,[\d.]+$", reader.url)


def test_the_marked_line_moves_with_the_voice(reader: Page) -> None:
    """When the voice comes to the next line, that one is marked and no other."""
    reader.goto(INTERVIEW)
    reader.locator(".line-time").nth(2).click()
    _until(reader, f"audio.currentTime >= {_start_of(reader, 3)}")
    expect(reader.locator(".line[aria-current]")).to_have_count(1)
    expect(reader.locator(".line").nth(3)).to_have_attribute("aria-current", "true")


def test_keys_play_and_move(reader: Page) -> None:
    """Space plays and pauses, arrows go five seconds or one line, while no control has the focus."""
    reader.goto(INTERVIEW)
    reader.keyboard.press("ArrowRight")
    _until(reader, "audio.currentTime >= 4.9")
    reader.keyboard.press("ArrowLeft")
    _until(reader, "audio.currentTime < 0.1")
    reader.keyboard.press("ArrowDown")
    reader.keyboard.press("ArrowDown")
    second = _start_of(reader, 1)
    _until(reader, f"Math.abs(audio.currentTime - {second}) < 0.1")
    reader.keyboard.press("Space")
    _until(reader, "!audio.paused")
    reader.keyboard.press("Space")
    _until(reader, "audio.paused")


def test_space_in_a_control_is_left_to_it(reader: Page) -> None:
    """Space on a summary opens it and does not play."""
    reader.goto(INTERVIEW)
    summary = reader.locator(".line-side > summary").first
    summary.focus()
    reader.keyboard.press("Space")
    expect(reader.locator(".line-side").first).to_have_attribute("open", "")
    assert reader.evaluate("document.querySelector('audio').paused")


def test_a_lasting_link_goes_to_its_time(reader: Page) -> None:
    """A media fragment in the address takes sound, mark and page to its line, and silence comes at its end."""
    reader.goto(INTERVIEW)
    link = reader.locator(".line-time").nth(20).get_attribute("href") or ""
    reader.goto(link)
    line = reader.locator(".line").nth(20)
    expect(line).to_have_attribute("aria-current", "true")
    expect(line).to_be_in_viewport()
    reader.get_by_role("button", name="Play").click()
    end = float(line.get_attribute("data-end") or "nan") / 1000
    _until(reader, f"audio.paused && Math.abs(audio.currentTime - {end}) < 0.5")


def test_the_strip_is_a_slider(reader: Page) -> None:
    """The strip of levels is drawn, tells its value in words, and is moved by keys."""
    reader.goto(INTERVIEW)
    slider = reader.get_by_role("slider", name="Place in the recording")
    expect(slider.locator("path").first).to_have_attribute("d", re.compile(r"^M.{500}"))
    slider.focus()
    reader.keyboard.press("End")
    expect(slider).to_have_attribute("aria-valuetext", re.compile(r"^(\d+:\d\d) of \1$"))
    reader.keyboard.press("Home")
    expect(slider).to_have_attribute("aria-valuenow", "0")


def test_closed_stretches_are_marked_flat(reader: Page) -> None:
    """On the strip of a recording with closures each is marked with the word and nothing else."""
    reader.goto("/reading/interviews/I-06")
    expect(reader.locator(".levels-closed")).to_have_text(["closed", "closed"])


def test_a_citation_and_a_link_are_copied(reader: Page) -> None:
    """One button copies the citation of a line, another its whole address, and each says so."""
    reader.context.grant_permissions(["clipboard-read", "clipboard-write"])
    reader.goto(INTERVIEW)
    side = reader.locator(".line-side").nth(4)
    side.locator("summary").click()
    side.get_by_role("button", name="Copy the citation").click()
    expect(side.get_by_text("The citation is copied.")).to_be_visible()
    assert "interview I-02" in reader.evaluate("navigator.clipboard.readText()")
    side.get_by_role("button", name="Copy a link to this line").click()
    expect(side.get_by_text("The link to this line is copied.")).to_be_visible()
    assert re.match(r"http://127.*/reading/interviews/I-02\?.*#t=", reader.evaluate("navigator.clipboard.readText()"))


def test_search_results_come_in_place(reader: Page) -> None:
    """Asking and narrowing change the results, the address and the title in place; the count is told and focused."""
    reader.goto("/reading/")
    reader.evaluate("window.stayed = true")
    reader.get_by_role("searchbox").fill("brass")
    reader.keyboard.press("Enter")
    count = reader.locator("[data-count]")
    expect(count).to_contain_text("passage")
    expect(count).to_be_focused()
    expect(reader.locator("[data-said]")).to_contain_text("passage")
    assert reader.url.endswith("?q=brass")
    reader.locator(".narrowing li a").first.click()
    expect(reader.locator(".chosen a")).to_have_count(1)
    reader.go_back()
    expect(reader.locator(".chosen a")).to_have_count(0)
    assert reader.evaluate("window.stayed")
    assert reader.title().startswith("brass")


def test_a_hit_is_heard_where_it_stands(reader: Page) -> None:
    """A hit plays from its time in the one small player, and closing that gives the focus back."""
    reader.goto("/reading/?q=brass")
    hear = reader.locator(".hit-hear").first
    start = float(hear.get_attribute("data-start") or "nan")
    hear.click()
    _until(reader, f"audio.currentTime > {start}")
    assert "/reading/?q=brass" in reader.url
    reader.locator("hit-player").get_by_role("button", name="Close").click()
    expect(reader.locator("hit-player")).to_be_hidden()
    expect(hear).to_be_focused()


def test_all_is_there_without_script(browser: Browser, site: str, signed: Any) -> None:
    """Without script a hit leads to its line, which is on the page with a player of the browser's own."""
    with browser.new_context(java_script_enabled=False, base_url=site) as plain:
        plain.add_cookies(signed)
        page = plain.new_page()
        page.goto("/reading/?q=brass")
        page.locator(".hit-hear").first.click()
        expect(page.locator(".line[aria-current]")).to_be_in_viewport()
        expect(page.locator("audio[controls]")).to_be_visible()
