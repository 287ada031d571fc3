"""No kind of page has an accessibility fault that axe-core can find (WCAG 2.2 A and AA)."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.browser.conftest import SIZES

OPEN_PAGES = (
    "/",
    "/sign-in",
    "/kiosk/",
    "/kiosk/?floor=upper",
    "/kiosk/stations/st-drop-stamp",
    "/kiosk/stations/st-dip",
    "/kiosk/processes/",
    "/kiosk/processes/pr-anneal",
    "/kiosk/hazards/hz-mercury",
    "/kiosk/objects/",
    "/kiosk/objects/TY.1984.12",
    "/kiosk/terms/",
    "/kiosk/terms/t-tup",
    "/kiosk/people/P-02",
    "/kiosk/interviews/I-02",
    "/kiosk/voices/C-01",
    "/kiosk/nowhere",
    "/reckoners/",
    "/reckoners/?face=kiosk",
    "/reckoners/press/drop-stamp-blow",
    "/reckoners/press/drop-stamp-blow?mass=5+C&fall=x",
    "/reckoners/hazard/noise-day?face=kiosk",
    "/reckoners/output/gross",
)
ROLE_PAGES = (
    ("reader", "/reading/"),
    ("reader", "/reading/?q=brass"),
    ("reader", "/reading/?q=zzzzzz"),
    ("reader", "/reading/interviews/"),
    ("reader", "/reading/interviews/I-02"),
    ("reader", "/reading/accounts/"),
    ("reader", "/reading/figures/"),
    ("reader", "/reading/figures/?kind=money&sort=-value"),
    ("reader", "/reading/statements/s-stamp-joules"),
    ("reader", "/reckoners/press/blanking"),
    ("guide", "/desk/"),
    ("guide", "/desk/tours/t-metal"),
    ("guide", "/desk/tours/t-metal/sheet"),
    ("guide", "/desk/tours/new"),
    ("guide", "/desk/tours/t-metal/edit"),
    ("guide", "/desk/tours/t-metal/give"),
    ("guide", "/desk/tours/t-metal/afterwards"),
    ("guide", "/desk/outings/"),
    ("guide", "/desk/days/"),
    ("guide", "/desk/days/2030-01-02/"),
    ("guide", "/desk/noise/?at=st-drop-stamp"),
    ("guide", "/desk/stations/st-drop-stamp"),
    ("guide", "/desk/stations/st-clip"),
    ("guide", "/desk/tellings/"),
    ("guide", "/desk/tellings/tl-fly-closer"),
    ("guide", "/desk/tellings/tl-clip-demo/edit"),
    ("guide", "/desk/demonstrations/"),
    ("guide", "/desk/demonstrations/dm-stamp"),
    ("guide", "/desk/demonstrations/dm-clip"),
    ("guide", "/desk/demonstrations/dm-stamp/card"),
    ("guide", "/desk/machines/TY.1984.12/log"),
    ("keeper", "/workroom/recordings/"),
    ("keeper", "/workroom/recordings/I-06-a"),
    ("keeper", "/workroom/recordings/I-06-a/words"),
    ("keeper", "/workroom/recordings/I-06-a/align"),
    ("keeper", "/workroom/recordings/I-06-a/draft"),
    ("keeper", "/workroom/recordings/I-06-a/turns"),
    ("keeper", "/workroom/upload/?interview=I-02"),
    ("keeper", "/workroom/interviews/new"),
    ("keeper", "/workroom/recordings/I-06-a/bench"),
    ("keeper", "/workroom/recordings/I-06-a/closures"),
    ("keeper", "/workroom/recordings/I-06-a/closures?start=30000&end=41000"),
    ("keeper", "/workroom/recordings/I-06-a/versions/"),
    ("keeper", "/workroom/machines/"),
    ("keeper", "/workroom/machines/TY.1984.14"),
    ("keeper", "/workroom/machines/TY.1984.12/papers/new"),
    ("guide", "/desk/out-of-use/"),
    ("guide", "/workroom/"),
    ("keeper", "/workroom/"),
)
DARK_PAGES = (
    ("", "/"),
    ("", "/kiosk/"),
    ("", "/kiosk/stations/st-drop-stamp"),
    ("", "/kiosk/voices/C-01"),
    ("reader", "/reading/?q=brass"),
    ("guide", "/desk/tours/t-quiet"),
    ("guide", "/desk/tours/new"),
    ("guide", "/desk/tours/t-quiet/edit"),
    ("keeper", "/workroom/"),
)
RULES = {
    "runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}
}


pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]


def _violations(page: Page) -> list[str]:
    results = Axe().run(page, options=RULES)
    return [f"{v['id']}: {v['help']} at {v['nodes'][0]['html'][:160]}" for v in results.response["violations"]]


@pytest.mark.parametrize("address", OPEN_PAGES)
def test_pages_for_visitors_have_no_faults(page: Page, address: str) -> None:
    """Every kind of page that a visitor can open, large and small."""
    page.goto(address)
    for size in ("kiosk-portrait", "phone"):
        width, height = SIZES[size]
        page.set_viewport_size({"width": width, "height": height})
        assert _violations(page) == [], size


@pytest.mark.parametrize(("role", "address"), ROLE_PAGES)
def test_pages_for_staff_and_readers_have_no_faults(
    page: Page, cookies_of: Callable[[str], Any], role: str, address: str
) -> None:
    """Every kind of page behind a sign-in, and what one is told who may not come in."""
    page.context.add_cookies(cookies_of(role))
    page.goto(address)
    assert _violations(page) == []


@pytest.mark.parametrize(("role", "address"), DARK_PAGES)
def test_pages_in_the_dark_have_no_faults(
    page: Page, cookies_of: Callable[[str], Any], role: str, address: str
) -> None:
    """The dark colours keep their contrast."""
    page.context.add_cookies(cookies_of(role) if role else [])
    page.emulate_media(color_scheme="dark")
    page.goto(address)
    assert _violations(page) == []
