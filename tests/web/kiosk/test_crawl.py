"""Every page that a visitor can reach from the plan, visited."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from flask.testing import FlaskClient

from archive.store.session import Store
from tests.conftest import app_of
from tests.web.kiosk.reading_html import ReadPage

HOST = "http://localhost"
START = f"{HOST}/kiosk/"
SUMS = f"{HOST}/reckoners/"
KINDS = ("floors", "stations", "voices", "interviews", "people", "processes", "hazards", "objects", "terms")


def another_time(link: str, seen: set[str]) -> bool:
    """Whether a link differs from one already seen only in the time at which a voice starts; remembers it if not."""
    if "t=" not in link:
        return False
    path = link.split("?")[0] + "?t="
    known = path in seen
    seen.add(path)
    return known


def crawl(client: FlaskClient) -> Iterator[ReadPage]:
    """Each kiosk page once; every other address that they name must answer too."""
    waiting, seen = [START], {START}
    while waiting:
        address = waiting.pop()
        assert address.startswith(f"{HOST}/"), f"{address} leaves the site"
        answer = client.head(address) if "/media/" in address else client.get(address)
        assert answer.status_code == 200, f"{address} answers {answer.status_code}"
        # The form of a sum names its bare address and sends the kiosk's type with it.
        if answer.mimetype != "text/html" or (address.startswith(SUMS) and "?" not in address):
            answer.close()
            continue
        in_its_type = address.startswith(SUMS) and "face=kiosk" in address
        assert address.startswith(START) or in_its_type, f"{address} leaves the kiosk"
        page = ReadPage(address, answer.get_data(as_text=True))
        yield page
        for link in sorted(page.links() - seen):
            seen.add(link)
            if not another_time(link, seen):
                waiting.append(link)


@pytest.fixture(scope="module")
def pages(shared_home: Store) -> list[ReadPage]:
    """The pages of the small collection, visited once."""
    return list(crawl(app_of(shared_home).test_client()))


def test_every_kind_of_page_is_reached(pages: list[ReadPage]) -> None:
    """Each kind of page is linked from somewhere, starting at the plan."""
    own = [page.address.removeprefix(START) for page in pages if page.address.startswith(START)]
    assert {address.split("?")[0].split("/")[0] for address in own} == {"", *KINDS}


def test_every_page_has_one_heading_and_a_way_home(pages: list[ReadPage]) -> None:
    """Each page has one first heading, one main part, and a link to the plan."""
    for page in pages:
        assert page.count("h1") == 1, page.address
        assert page.count("main") == 1, page.address
        assert START in page.links(), page.address


def test_no_page_carries_script_or_style_of_its_own(pages: list[ReadPage]) -> None:
    """Nothing inline stands in any page: the content policy would stop it."""
    assert {page.address: page.inline for page in pages if page.inline} == {}


def test_every_id_stands_once_and_leads_somewhere(pages: list[ReadPage]) -> None:
    """No id is given twice on a page, and nothing points to an id that is not there."""
    for page in pages:
        ids = page.ids()
        assert len(ids) == len(set(ids)), page.address
        assert page.inner_links() <= set(ids), page.address


def test_every_picture_is_described_or_said_to_be_beside_its_name(pages: list[ReadPage]) -> None:
    """Each picture has its alternative text; an empty one only inside a link that names the object."""
    for page in pages:
        assert all("alt" in given for tag, given in page.tags if tag == "img"), page.address


@pytest.mark.slow
def test_the_demo_leads_nowhere_wrong(demo_client: FlaskClient) -> None:
    """In the whole demo collection every link answers and every page has one heading and no inline script."""
    pages = list(crawl(demo_client))
    assert len(pages) > 300
    assert [page.address for page in pages if page.count("h1") != 1 or page.inline] == []
