"""A tour given for real: out of reach, killed and come back, handed in once; a pack opened from disk."""

from __future__ import annotations

import io
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import pytest
from flask import Flask
from playwright.sync_api import Browser, BrowserContext, Error, Page, expect
from sqlalchemy import func, select

from archive.interviews.model import Clip
from archive.rights.model import Closure
from archive.store.session import Store
from archive.tours.model import Outing, OutingEntry
from archive.values.timecode import Span
from tests.browser.conftest import serving, sign_in_on, tab_to, until
from tests.conftest import PASSWORD, TODAY, app_of

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

GIVE = "/desk/tours/t-short/give"
KEPT = "pack-keeper[data-state=kept]"
HANDED = "hand-in[data-state=hand_done]"
NOTHING_WAITS = "hand-in[data-state='']"


@pytest.fixture
def floor(home: Store) -> Iterator[tuple[Flask, str]]:
    """An app on the small collection, a home of this test's own, and its address."""
    app = app_of(home)
    for address in serving(app):
        yield app, address


@pytest.fixture
def tablet(browser: Browser, floor: tuple[Flask, str]) -> Iterator[BrowserContext]:
    """A guide's tablet, signed in."""
    with browser.new_context(base_url=floor[1], viewport={"width": 820, "height": 1180}) as context:
        context.set_default_timeout(15_000)
        page = context.new_page()
        sign_in_on(page, "guide")
        page.close()
        yield context


def opened(tablet: BrowserContext) -> Page:
    """The giving page, with everything kept on the tablet."""
    page = tablet.new_page()
    page.goto(GIVE)
    expect(page.locator(KEPT)).to_contain_text("Kept here: page, plan, sheet and voices (1)")
    return page


def go(page: Page, words: str, times: int = 1) -> None:
    """Press the one big button, which says what it does."""
    for _ in range(times):
        page.get_by_role("button", name=words).click()


def write(page: Page, kind: str, text: str) -> None:
    """Write something down."""
    page.get_by_role("radio", name=kind).check()
    page.locator("#log-text").fill(text)
    page.get_by_role("button", name="Write it down").click()
    expect(page.locator("[data-written]")).to_contain_text(text)


def counts(home: Store) -> tuple[int, int]:
    """Outings and lines of logs in the home."""
    with home.session() as session:
        kinds = (Outing, OutingEntry)
        first, second = (session.scalar(select(func.count()).select_from(kind)) or 0 for kind in kinds)
        return first, second


def kept_addresses(page: Page) -> list[str]:
    """What the tablet keeps, by path."""
    found: list[str] = page.evaluate(
        """async () => {
            const names = (await caches.keys()).filter((name) => name.startsWith("lemel-tour "));
            const every = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
            return every.flat().map(({ url }) => new URL(url).pathname);
        }"""
    )
    return found


def test_a_tour_is_given_out_of_reach_and_its_log_is_there_once(home: Store, tablet: BrowserContext) -> None:
    """Loaded, network gone, given whole with a voice heard from its middle; back in reach the Desk has it once."""
    page = opened(tablet)
    tablet.set_offline(True)
    page.reload()
    expect(page.locator("pack-keeper[data-state=unreached]")).to_contain_text("Out of reach.")
    go(page, "Start")
    write(page, "Question", "How loud was it?")
    go(page, "Leave for The press")
    go(page, "Arrived: The press")
    page.locator("audio").evaluate("audio => { audio.currentTime = 5; audio.play(); }")
    until(page, "!audio.paused && audio.currentTime > 5")
    page.locator("[data-telling=tl-voice] [data-mark=told]").click()
    write(page, "Incident", "A visitor felt faint")
    go(page, "Leave for")
    go(page, "Arrived:")
    go(page, "Finish")
    expect(page.locator("hand-in")).to_contain_text("Lines of the log that wait here")
    assert counts(home) == (0, 0)
    tablet.set_offline(False)
    expect(page.locator(HANDED)).to_contain_text("The log is handed in.")
    assert counts(home) == (1, 11)
    page.reload()
    expect(page.locator(KEPT)).to_be_visible()
    expect(page.locator(NOTHING_WAITS)).to_be_attached()
    assert counts(home) == (1, 11)
    page.goto("/desk/outings/")
    page.locator("tbody a").click()
    for words in ("How loud was it?", "A visitor felt faint"):
        expect(page.locator(".outing-written")).to_contain_text(words)


def test_a_page_that_is_killed_comes_back_where_it_was(home: Store, tablet: BrowserContext) -> None:
    """Out of reach and half way the tab dies; another stands at the same stop with all that was said."""
    page = opened(tablet)
    tablet.set_offline(True)
    go(page, "Start")
    write(page, "Note", "A pushchair is with us")
    go(page, "Leave for The press")
    expect(page.get_by_role("button", name="Arrived: The press")).to_be_visible()
    page.close()
    page = tablet.new_page()
    page.goto(GIVE)
    expect(page.get_by_role("button", name="Arrived: The press")).to_be_visible()
    expect(page.locator("[data-written]")).to_contain_text("A pushchair is with us")
    tablet.set_offline(False)
    expect(page.locator(HANDED)).to_be_visible()
    assert counts(home) == (1, 4)


def test_two_tabs_write_each_step_once_and_a_slip_is_taken_back(home: Store, tablet: BrowserContext) -> None:
    """Both press; the Desk has one outing, one start and one arrival, and no departure that was none."""
    one, other = opened(tablet), tablet.new_page()
    other.goto(GIVE)
    for page in (one, other):
        page.locator("[data-go]:not([hidden])").wait_for()
    go(one, "Start")
    expect(other.get_by_role("button", name="Leave for The press")).to_be_visible()
    # The other tab hears of nothing, and presses on what it saw last.
    other.evaluate("() => { document.querySelector('tour-giving').channel.onmessage = null; }")
    for page in (one, other):
        go(page, "Leave for The press")
        expect(page.get_by_role("button", name="Arrived: The press")).to_be_visible()
    expect(one.get_by_role("button", name="Arrived: The press")).to_be_visible()
    go(other, "One step back")
    expect(one.get_by_role("button", name="Leave for The press")).to_be_visible()
    expect(one.locator("hand-in[data-state=hand_done], hand-in[data-state='']")).to_be_attached()
    one.evaluate("() => document.querySelector('hand-in').handIn()")
    with home.session() as session:
        kinds = session.scalars(select(OutingEntry.kind).order_by(OutingEntry.at, OutingEntry.id)).all()
    assert sorted(kinds) == ["arrived", "started", "taken back"]


def test_a_sign_in_that_ran_out_loses_nothing(home: Store, tablet: BrowserContext) -> None:
    """The page says so, keeps the log, and hands it in after signing in again."""
    page = opened(tablet)
    tablet.clear_cookies()
    go(page, "Start")
    expect(page.locator("hand-in[data-state=hand_signed_out]")).to_contain_text("safe here")
    assert counts(home) == (0, 0)
    page.get_by_role("link", name="Sign in again").click()
    page.get_by_label("Name").fill("guide")
    page.get_by_label("Password").fill(PASSWORD)
    page.keyboard.press("Enter")
    page.wait_for_url(f"**{GIVE}")
    expect(page.locator(HANDED)).to_be_visible()
    assert counts(home) == (1, 2)


def test_what_is_closed_meanwhile_goes_when_back_in_reach(home: Store, tablet: BrowserContext) -> None:
    """Page and voice: after the closure neither is on the tablet; what is refused was never kept."""
    page = opened(tablet)
    assert "/media/clips/C-1.mp3" in kept_addresses(page)
    with home.changing("keeper") as session:
        recording = session.scalars(select(Clip).where(Clip.ref == "C-1")).one().recording
        recording.closures.append(
            Closure(Span(3000, 4000), (), recording.duration_ms, reason="x", review_on=TODAY.replace(year=2040))
        )
    page.reload()
    expect(page.locator(KEPT)).to_contain_text("voices (0)")
    assert not [address for address in kept_addresses(page) if "/clips/" in address]
    tablet.set_offline(True)
    page.reload()
    expect(page.locator("pack-keeper[data-state=unreached]")).to_be_visible()
    assert "Her first morning" not in page.content()


def test_signing_out_empties_what_is_kept(floor: tuple[Flask, str], tablet: BrowserContext) -> None:
    """Nothing of any tour is left on the tablet."""
    page = opened(tablet)
    assert kept_addresses(page) != []
    page.goto("/desk/")
    page.get_by_role("button", name="Sign out").click()
    page.wait_for_url(f"{floor[1]}/")
    until_empty(page)


def test_a_tour_that_is_being_kept_while_somebody_signs_out_is_let_go(tablet: BrowserContext) -> None:
    """What the worker has already asked the Desk for is not written down after all."""
    page = opened(tablet)
    state = page.evaluate(
        """async () => {
            const { active } = await navigator.serviceWorker.ready;
            const manifest = document.querySelector("pack-keeper").dataset.manifest;
            const line = new MessageChannel();
            const told = new Promise((answered) => (line.port1.onmessage = ({ data }) => answered(data)));
            active.postMessage({ keep: manifest }, [line.port2]);
            active.postMessage({ letGo: true });
            return (await told).state;
        }"""
    )
    assert state == "signed-out"
    assert kept_addresses(page) == []


def test_what_is_kept_is_not_used_after_its_last_day(tablet: BrowserContext) -> None:
    """Out of reach for too long, the tablet shows nothing of it and lets it go."""
    page = opened(tablet)
    page.evaluate(
        """async () => {
            const [name] = (await caches.keys()).filter((each) => each.startsWith("lemel-tour "));
            const cache = await caches.open(name);
            const address = name.slice("lemel-tour ".length);
            const note = await (await cache.match(address)).json();
            note.manifest.until = "2020-01-01";
            await cache.put(address, Response.json(note));
        }"""
    )
    tablet.set_offline(True)
    with pytest.raises(Error):
        page.goto(GIVE)
    tablet.set_offline(False)
    page.goto("/")
    assert kept_addresses(page) == []


def until_empty(page: Page) -> None:
    """Wait until the tablet keeps no tour."""
    page.evaluate(
        """() => new Promise((empty, late) => {
            setTimeout(() => late(new Error("something is still kept")), 10000);
            const look = async () => {
                const kept = (await caches.keys()).filter((name) => name.startsWith("lemel-tour "));
                return kept.length ? requestAnimationFrame(look) : empty();
            };
            look();
        })"""
    )


def test_a_tour_is_given_by_keyboard_alone(page: Page, cookies_of: Callable[[str], Any]) -> None:
    """The big button keeps the focus from step to step; marks and notes are reached by Tab."""
    page.context.add_cookies(cookies_of("keeper"))
    page.goto("/desk/tours/t-families/give")
    button = page.locator("[data-go]")
    expect(button).to_have_text("Start")
    tab_to(page, button)
    page.keyboard.press("Enter")
    expect(button).to_have_text("Leave for Breaking-down rolls")
    expect(button).to_be_focused()
    page.keyboard.press("Space")
    expect(button).to_have_text("Arrived: Breaking-down rolls")
    page.keyboard.press("Enter")
    tab_to(page, page.locator(".giving-stop.is-now [data-mark=dropped]").first)
    page.keyboard.press("Enter")
    expect(page.locator(".giving-stop.is-now [data-mark=dropped]").first).to_have_attribute("aria-pressed", "true")
    tab_to(page, page.locator("#log-text"))
    page.keyboard.type("All by keyboard")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator("[data-written]")).to_contain_text("All by keyboard")


def test_a_late_tour_says_what_to_drop(page: Page, cookies_of: Callable[[str], Any]) -> None:
    """Twenty minutes late the page says so, offers what to drop within a second, and one press puts it right."""
    page.context.add_cookies(cookies_of("guide"))
    page.clock.install()
    page.goto("/desk/tours/t-families/give")
    page.get_by_role("button", name="Start").click()
    expect(page.get_by_role("button", name="Leave for Breaking-down rolls")).to_be_visible()
    expect(page.locator("[data-drop]")).to_be_hidden()
    page.clock.fast_forward("12:00")
    expect(page.locator("[data-pace]")).to_contain_text("behind")
    expect(page.locator("[data-ends]")).to_contain_text("late")
    expect(page.locator(".giving-option").first).to_contain_text("saves")
    assert float(page.locator("[data-drop]").get_attribute("data-took") or "9999") < 1000
    page.locator(".giving-option").first.click()
    expect(page.locator("[data-drop]")).to_be_hidden()
    expect(page.locator("[data-ends]")).not_to_contain_text("late")


def test_a_pack_opens_from_disk_plays_a_voice_and_keeps_its_log(
    home: Store, tablet: BrowserContext, tmp_path: Path
) -> None:
    """Unpacked and opened without any network; its log is still there when opened again, and is handed in as a file."""
    answer = tablet.request.get("/desk/tours/t-short/pack.zip")
    ZipFile(io.BytesIO(answer.body())).extractall(tmp_path / "pack")
    complaints: list[str] = []
    page = tablet.new_page()
    page.on("pageerror", lambda error: complaints.append(str(error)))
    tablet.set_offline(True)
    page.goto((tmp_path / "pack" / "index.html").as_uri())
    expect(page.locator(".giving-kept")).to_contain_text("may be used until 2 December 2026")
    go(page, "Start")
    go(page, "Leave for The press")
    go(page, "Arrived: The press")
    page.locator("audio").evaluate("audio => { audio.currentTime = 2; audio.play(); }")
    until(page, "!audio.paused && audio.currentTime > 2 && audio.duration > 7")
    write(page, "Question", "Was it hard?")
    page.reload()
    expect(page.locator("[data-written]")).to_contain_text("Was it hard?")
    go(page, "Leave for")
    go(page, "Arrived:")
    go(page, "Finish")
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save the log as a file").click()
    saved = tmp_path / saving.value.suggested_filename
    saving.value.save_as(saved)
    assert [len(each["entries"]) for each in json.loads(saved.read_text("utf-8"))["outings"]] == [9]
    page.goto((tmp_path / "pack" / "sheet.html").as_uri())
    expect(page.locator("h1")).to_have_text("A short walk")
    assert complaints == []
    tablet.set_offline(False)
    for _ in range(2):
        page.goto("/desk/outings/")
        page.locator("#log-file").set_input_files(saved)
        page.get_by_role("button", name="Hand it in", exact=True).click()
        expect(page.locator(".outing-written")).to_contain_text("Was it hard?")
    assert counts(home) == (1, 9)
