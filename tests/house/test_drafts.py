"""A draft is marked as one wherever its words are read, until a person has checked them."""

from __future__ import annotations

import html
import io
import re
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from archive.cli import main
from archive.exchange.loading import load
from archive.exchange.writing import write_folder
from archive.interviews.intake.queries import recording
from archive.interviews.transcripts.edits import set_state
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from tests.conftest import app_of, fill, sign_in, with_accounts
from tests.house.test_templates import ADDRESSES
from tests.small_collection import write_small_collection

REF = "I-1-a"
# Words of the recording's lines that stand nowhere else in the small collection.
SAID = re.compile("keep my fingers out|called the brass yella|two still at it")
MARKED = re.compile("draft", re.IGNORECASE)
BESIDE_PAGES = (
    "/media/captions/I-1-a.vtt",
    "/media/clips/C-1.vtt",
    "/reading/recordings/I-1-a.txt",
    "/reading/recordings/I-1-a.vtt",
    "/reading/?q=fingers",
    "/api/v1/search?q=fingers",
    "/api/v1/interviews/I-1",
    "/api/v1/recordings/I-1-a/segments",
    "/api/v1/statements",
)
# Where a role reads words of the recording at all: so many addresses at least.
FEWEST = {"": 8, "guide": 12, "reader": 12, "keeper": 12}


@pytest.fixture(scope="module")
def drafted_home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """A home in which the words of one recording are a draft."""
    folder = tmp_path_factory.mktemp("drafted")
    store = make_home(Settings(folder / "home", testing=True))
    with_accounts(fill(store, write_small_collection(folder / "collection")))
    with store.changing("keeper") as session:
        set_state(recording(session, REF), checked=False)
    yield store
    store.close()


def told(body: bytes) -> str:
    """The text of an answer; of a packed folder all that is in it."""
    if not body.startswith(b"PK"):
        return html.unescape(body.decode("utf-8", errors="replace"))
    with zipfile.ZipFile(io.BytesIO(body)) as packed:
        return html.unescape("\n".join(packed.read(name).decode("utf-8", "replace") for name in packed.namelist()))


@pytest.mark.parametrize("role", FEWEST)
def test_every_address_that_tells_its_words_marks_them(drafted_home: Store, role: str) -> None:
    """Pages, captions, texts to take away, answers for machines and a tour to carry along."""
    client = app_of(drafted_home).test_client()
    client = sign_in(client, role) if role else client
    read = {}
    for address in (*ADDRESSES.values(), *BESIDE_PAGES):
        text = told(client.get(address).get_data())
        if SAID.search(text):
            read[address] = bool(MARKED.search(text))
    assert [address for address, marked in read.items() if not marked] == []
    assert len(read) >= FEWEST[role], sorted(read)


def test_the_shell_marks_them_too(drafted_home: Store) -> None:
    """In what a search finds."""
    found = CliRunner().invoke(main, ["--home", str(drafted_home.settings.home), "find", "fingers"])
    assert re.search(r"\(draft\) .*fingers", found.output), found.output


def test_the_mark_goes_out_and_comes_in_with_the_folder(drafted_home: Store, tmp_path: Path) -> None:
    """A draft that is exported and loaded is a draft still, and what was checked stays checked."""
    write_folder(drafted_home, tmp_path / "out")
    assert "draft = true" in (tmp_path / "out" / "interviews" / "I-1" / "interview.toml").read_text("utf-8")
    store = make_home(Settings(tmp_path / "again", testing=True))
    load(store, tmp_path / "out")
    with store.session() as session:
        assert recording(session, REF).is_draft
        assert recording(session, "I-2-a").transcript_state == "checked"
    store.close()


def test_once_checked_nothing_is_marked(shared_home: Store) -> None:
    """The same pages without a draft do not speak of one, so the marks above come from it."""
    client = sign_in(app_of(shared_home).test_client(), "reader")
    for address in ("/reading/interviews/I-1", "/kiosk/interviews/I-1", "/kiosk/objects/SM.1", *BESIDE_PAGES):
        text = re.sub(r'"draft": ?false', "", told(client.get(address).get_data()))
        assert not MARKED.search(text), address
