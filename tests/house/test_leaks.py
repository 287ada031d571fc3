"""What a narrator closed leaks nowhere: every address, every role; and the walk itself finds a guard that is gone."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import true

import archive.interviews.names
import archive.interviews.queries
import archive.rights.queries
from archive.rights.decisions import Role
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from tests.conftest import app_of, fill, sign_in, with_accounts
from tests.house.office_papers import file_office_papers
from tests.house.past_deeds import do_past_deeds
from tests.house.planted import EMBARGOED, WITHDRAWN, forbidden_words, write_planted_collection
from tests.house.walk import leaks
from tests.small_collection import CLOSED_WORD

Browser = Callable[[Role], FlaskClient]


@pytest.fixture(scope="module")
def planted_home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """A home in which closed words are planted."""
    folder = tmp_path_factory.mktemp("planted")
    store = make_home(Settings(folder / "home", testing=True))
    fill(store, write_planted_collection(folder / "collection"))
    do_past_deeds(with_accounts(store))
    file_office_papers(store)
    yield store
    store.close()


@pytest.fixture(scope="module")
def browser(planted_home: Store) -> Browser:
    """A browser signed in by role, or a visitor's; each signs in once."""

    @cache
    def known_as(role: Role) -> FlaskClient:
        client = app_of(planted_home).test_client()
        return client if role is Role.VISITOR else sign_in(client, role)

    return known_as


@pytest.mark.slow
@pytest.mark.parametrize("role", Role)
def test_no_address_tells_what_is_closed(browser: Browser, role: Role) -> None:
    """Neither bodies nor headers of any address hold the planted words, whatever is asked."""
    client = browser(role)
    assert list(leaks(client.application, client, role, forbidden_words(role))) == []


@pytest.mark.parametrize("role", Role)
@pytest.mark.parametrize("word", [EMBARGOED, WITHDRAWN, CLOSED_WORD, "Zebedee", "Quince"])
def test_asking_for_a_closed_word_is_like_asking_for_nonsense(browser: Browser, role: Role, word: str) -> None:
    """Search answers a closed word just as it answers a word that nobody ever said."""
    client, nonsense = browser(role), "x" * len(word)
    for address in ("/api/v1/search?q={}", "/reading/?q={}"):
        closed, unknown = (_stable(client.get(address.format(asked)), asked) for asked in (word, nonsense))
        assert closed == unknown
        assert closed[0] == (303 if role is Role.VISITOR and "reading" in address else 200)


@pytest.mark.parametrize("role", [Role.VISITOR, Role.READER, Role.GUIDE])
@pytest.mark.parametrize(
    "address",
    ["/kiosk/interviews/{}", "/kiosk/voices/C-{}", "/kiosk/people/P-{}", "/reading/interviews/{}",
     "/reading/statements/s-{}", "/media/recordings/{}-a.webm", "/media/captions/{}-a.vtt",
     "/media/clips/C-{}.webm", "/media/clips/C-{}.vtt",
     "/media/waveforms/{}-a.json", "/api/v1/interviews/{}"],
)  # fmt: skip
def test_absent_and_closed_are_told_alike(browser: Browser, role: Role, address: str) -> None:
    """An address of a closed record answers in every byte like one of a record that never was."""
    client = browser(role)
    for ref, other in ((EMBARGOED, "nonesuch1"), (WITHDRAWN, "nonesuch-two")):
        closed, absent = (_stable(client.get(address.format(each)), each) for each in (ref, other))
        assert closed == absent
        assert closed[0] in {303, 403, 404}


def _everything(*_arguments: Any) -> Any:
    return true()


GUARDS = {
    "agreements": (archive.rights.queries, "permission_open", lambda viewer: archive.rights.model.Permission.id > 0),
    "closures": (archive.interviews.queries, "clear_of_closures", _everything),
    "unnamed people": (archive.interviews.names, "shown_name", lambda person, _allowances: person.name),
}


@pytest.mark.slow
@pytest.mark.parametrize("guard", GUARDS)
def test_the_walk_finds_a_guard_that_is_gone(browser: Browser, monkeypatch: pytest.MonkeyPatch, guard: str) -> None:
    """With any one guard taken out, the same walk finds planted words: it can fail."""
    module, name, open_door = GUARDS[guard]
    monkeypatch.setattr(module, name, open_door)
    client = browser(Role.READER)
    assert next(leaks(client.application, client, Role.READER, forbidden_words(Role.READER)), None)


def _stable(answer: Any, asked: str) -> tuple[int, str]:
    """Status and body without what differs from one request to the next: the asked word, tokens and times taken."""
    body = answer.get_data(as_text=True).replace(asked, "…")
    body = re.sub(r'name="csrf_token"[^>]*>', "", body)
    return answer.status_code, re.sub(r'"took_ms":\s*[\d.]+', "", body)
