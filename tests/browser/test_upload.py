"""A master sent from a browser, over a connection that drops and a page that is loaded again."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
import soundfile
from playwright.sync_api import Browser, Page, Route, expect

from archive.interviews.intake import queries
from archive.store.session import Store
from tests.browser.conftest import serving, sign_in_on
from tests.conftest import app_of
from tests.interviews.intake.sounds import murmur


@pytest.fixture
def site_of_its_own(home: Store) -> Iterator[str]:
    """The small collection, served for this test alone."""
    yield from serving(app_of(home))


@pytest.fixture
def masters(tmp_path: Path) -> list[Path]:
    """A master of seven megabytes, and a small one."""
    large, small = tmp_path / "side one.wav", tmp_path / "side two.wav"
    soundfile.write(large, np.repeat(murmur(14)[:, None], 8, axis=1), 16_000, subtype="FLOAT")
    soundfile.write(small, murmur(6, seed=2), 16_000)
    return [large, small]


class Line:
    """The line to the server: it drops when the third piece of the large master is sent, and hangs at the fifth."""

    def __init__(self, page: Page) -> None:
        self._dropped = False
        page.route("**/bytes?from=*", self._pass)

    def _pass(self, route: Route) -> None:
        at = int(route.request.url.partition("from=")[2])
        if at == 2_000_000 and not self._dropped:
            self._dropped = True
            route.request.frame.page.context.set_offline(True)
            route.abort("internetdisconnected")
        elif at < 4_000_000:
            route.continue_()


def choose(page: Page, *files: Path) -> None:
    """Choose an interview and files, and send them."""
    page.get_by_label("Interview", exact=True).select_option("I-1")
    page.get_by_label("Files", exact=True).set_input_files(files)
    page.get_by_role("button", name="Send", exact=True).click()


@pytest.mark.browser
def test_a_master_arrives_whole_over_a_dropped_connection(
    browser: Browser, site_of_its_own: str, home: Store, masters: list[Path]
) -> None:
    """It goes on when the connection is back, and after a new load of the page from where it was."""
    with browser.new_context(base_url=site_of_its_own) as context:
        context.set_default_timeout(30_000)
        page = context.new_page()
        complaints: list[str] = []
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("dialog", lambda dialog: dialog.accept())
        sign_in_on(page, "keeper")
        page.goto("/workroom/upload/")
        Line(page)
        choose(page, *masters)
        large = page.locator(".arrivals--now .arrival", has_text="side one.wav")
        expect(large).to_contain_text("The connection is gone.", timeout=30_000)
        context.set_offline(False)
        expect(large).to_contain_text("4.0 of 7.2 MB have arrived.", timeout=30_000)
        page.unroute_all(behavior="ignoreErrors")
        page.reload()
        expect(page.locator(".arrival", has_text="side one.wav")).to_contain_text("Choose the same file again")
        pieces: list[str] = []
        page.on("request", lambda request: pieces.append(request.url) if request.method == "PUT" else None)
        choose(page, masters[0])
        again = page.locator(".arrivals--now .arrival", has_text="side one.wav")
        expect(again).to_contain_text("Taken in as I-1-", timeout=60_000)
        assert int(pieces[0].partition("from=")[2]) > 3_000_000
        page.get_by_role("link", name="See the recordings").click()
        expect(page.get_by_role("heading", name="Recordings", exact=True)).to_be_visible()
    assert complaints == []
    with home.session() as session:
        kept = {row.master_name: home.files.path(row.master_sha256) for row in queries.recordings(session)}
    assert [kept[master.name].read_bytes() == master.read_bytes() for master in masters] == [True, True]
