"""What all tests share: homes with a collection loaded, apps, clients and sign-ins."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from pathlib import Path
from unittest import mock

import argon2
import pytest
from flask import Flask
from flask.testing import FlaskClient

from archive.accounts import passwords
from archive.accounts.edits import add_account
from archive.app import create_app
from archive.exchange.loading import load
from archive.search.gateway import SearchIndex
from archive.settings import Settings, shared_folder
from archive.store.homes import make_home
from archive.store.session import Store
from tests.copied_homes import copied
from tests.small_collection import write_small_collection

TODAY = dt.date(2026, 11, 25)
PASSWORD = "a long enough password"
SignIn = Callable[[str], FlaskClient]


def with_accounts(store: Store) -> Store:
    """The home with an account for each role, whose password is hashed as quickly as can be: hundreds sign in."""
    quick = argon2.PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
    with mock.patch.object(passwords, "_HASHER", quick), store.changing("tests") as session:
        for role in ("guide", "reader", "keeper"):
            add_account(session, name=role, role=role, password=PASSWORD)
    return store


def fill(store: Store, folder: Path) -> Store:
    """The home with a collection loaded and indexed, as the shell's `load` does it."""
    load(store, folder)
    SearchIndex(store.settings.index).rebuild(store)
    return store


def app_of(store: Store) -> Flask:
    """An app on a home, on the day that all tests are set on."""
    app = create_app(store)
    app.config["TODAY"] = lambda: TODAY
    app.config["PROPAGATE_EXCEPTIONS"] = False
    return app


def sign_in(client: FlaskClient, role: str) -> FlaskClient:
    """The client, signed in through the form as the account of a role."""
    page = client.get("/sign-in").get_data(as_text=True)
    token = page.split('name="csrf_token"')[1].split('value="')[1].split('"')[0]
    answer = client.post("/sign-in", data={"csrf_token": token, "name": role, "password": PASSWORD})
    assert answer.status_code == 303, answer.get_data(as_text=True)
    return client


@pytest.fixture(scope="session")
def _empty_pattern(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """A home with nothing in it, which is only copied."""
    store = make_home(Settings(tmp_path_factory.mktemp("empty") / "home", testing=True))
    yield store
    store.close()


@pytest.fixture(scope="session")
def _loaded_pattern(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """The small collection loaded, which is only copied: to load it takes a second, and hundreds of tests change it."""
    folder = tmp_path_factory.mktemp("loaded")
    store = make_home(Settings(folder / "home", testing=True))
    yield with_accounts(fill(store, write_small_collection(folder / "small")))
    store.close()


@pytest.fixture
def empty_home(_empty_pattern: Store, tmp_path: Path) -> Iterator[Store]:
    """A home with nothing in it."""
    store = copied(_empty_pattern, tmp_path / "home")
    yield store
    store.close()


@pytest.fixture
def home(_loaded_pattern: Store, tmp_path: Path) -> Iterator[Store]:
    """A home of this test's own, with the small collection loaded from `small` and an account for each role."""
    write_small_collection(tmp_path / "small")
    store = copied(_loaded_pattern, tmp_path / "home")
    yield store
    store.close()


@pytest.fixture(scope="session")
def shared_home(_loaded_pattern: Store, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """The small collection, for tests that only read."""
    store = copied(_loaded_pattern, tmp_path_factory.mktemp("shared") / "home")
    yield store
    store.close()


@pytest.fixture(scope="session")
def demo_home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """The demo collection loaded once, for tests that only read."""
    store = make_home(Settings(tmp_path_factory.mktemp("demo") / "home", testing=True))
    yield with_accounts(fill(store, shared_folder("demo-collection")))
    store.close()


@pytest.fixture
def app(shared_home: Store) -> Flask:
    """An app on the small collection."""
    return app_of(shared_home)


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A visitor's browser."""
    return app.test_client()


@pytest.fixture
def signed_in(app: Flask) -> SignIn:
    """A browser signed in by role: signed_in("guide")."""
    return lambda role: sign_in(app.test_client(), role)


@pytest.fixture(scope="session")
def demo_app(demo_home: Store) -> Flask:
    """An app on the demo collection."""
    return app_of(demo_home)


@pytest.fixture
def demo_client(demo_app: Flask) -> FlaskClient:
    """A visitor's browser on the demo collection."""
    return demo_app.test_client()


@pytest.fixture
def demo_signed_in(demo_app: Flask) -> SignIn:
    """A browser on the demo collection, signed in by role."""
    return lambda role: sign_in(demo_app.test_client(), role)
