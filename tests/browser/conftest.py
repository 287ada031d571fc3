"""A real Chromium on a real server with the demo collection."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

import pytest
import waitress
from flask import Flask
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect, sync_playwright

from archive.store.session import Store
from tests.conftest import PASSWORD, app_of

# A machine with two busy cores may take its time; what never comes still fails.
expect.set_options(timeout=30_000)

SIZES = {
    "kiosk-portrait": (1080, 1920),
    "kiosk-landscape": (1920, 1080),
    "tablet": (820, 1180),
    "phone": (390, 844),
}
_FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
          "--disable-component-update", "--disable-sync", "--autoplay-policy=no-user-gesture-required"]  # fmt: skip


def _chromium() -> str:
    for name in ("chromium", "chromium-browser", "google-chrome"):
        path = shutil.which(name)
        if path:
            return path
    if os.environ.get("LEMEL_REQUIRE_BROWSER"):
        pytest.fail("Chromium is required here and was not found")
    pytest.skip("Chromium is not installed; the browser tests need it")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One Chromium for the whole run."""
    path = _chromium()
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=path, args=_FLAGS)
        yield chromium
        chromium.close()


def serving(app: Flask) -> Iterator[str]:
    """The address at which an app is served until the caller is done with it."""
    server = waitress.create_server(app, host="127.0.0.1", port=0, threads=8)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.effective_port}"
    server.close()
    thread.join(timeout=10)


@pytest.fixture(scope="session")
def site(demo_home: Store) -> Iterator[str]:
    """The address of the demo collection, served."""
    yield from serving(app_of(demo_home))


@pytest.fixture
def context(browser: Browser, site: str) -> Iterator[BrowserContext]:
    """A fresh browser profile at desk size; what a page complains of fails the test."""
    with browser.new_context(base_url=site, viewport={"width": 1280, "height": 900}) as fresh:
        fresh.set_default_timeout(15_000)
        yield fresh


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    """A page that must raise no script error and break no rule of the content policy."""
    complaints: list[str] = []
    page = context.new_page()
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("console", lambda message: complaints.append(message.text) if _bad(message) else None)
    yield page
    assert complaints == []


@pytest.fixture(scope="session")
def cookies_of(browser: Browser, site: str) -> Callable[[str], Any]:
    """The cookies of a role, which signs in once for the whole run."""

    @cache
    def cookies(role: str) -> Any:
        with browser.new_context(base_url=site) as context:
            sign_in_on(context.new_page(), role)
            return context.cookies()

    return cookies


def until(page: Page, condition: str) -> None:
    """Wait until the first sound on the page is so. Playwright's own wait needs eval, which the policy forbids."""
    page.evaluate(
        f"""() => new Promise((met, late) => {{
            const audio = document.querySelector("audio");
            const look = () => (({condition}) ? met() : requestAnimationFrame(look));
            setTimeout(() => late(new Error(`not so at ${{audio.currentTime}} s`)), 30000);
            look();
        }})"""
    )


def tab_to(page: Page, wanted: Locator) -> None:
    """Press Tab, as often as a patient person would, until the wanted thing has the focus."""
    for _ in range(150):
        page.keyboard.press("Tab")
        if wanted.evaluate("element => element === document.activeElement"):
            return
    pytest.fail(f"{wanted} is not reached by Tab")


def _bad(message: object) -> bool:
    kind, text = getattr(message, "type", ""), getattr(message, "text", "")
    return kind == "error" and ("Content Security Policy" in text or "Uncaught" in text)


def sign_in_on(page: Page, role: str) -> None:
    """Sign in through the form, by keyboard."""
    page.goto("/sign-in")
    page.get_by_label("Name").fill(role)
    page.get_by_label("Password").fill(PASSWORD)
    page.keyboard.press("Enter")
    page.wait_for_url(lambda url: "/sign-in" not in url)
