"""Homes and indexes for the search tests."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from archive.search.gateway import SearchIndex
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from tests.search.works import fill


@pytest.fixture(scope="session")
def works(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Store, SearchIndex]]:
    """The invented records and their index, for tests that only read."""
    store = fill(make_home(Settings(tmp_path_factory.mktemp("works") / "home", testing=True)))
    index = SearchIndex(store.settings.index)
    index.rebuild(store)
    yield store, index
    index.close()
    store.close()


@pytest.fixture
def own_works(tmp_path: Path) -> Iterator[tuple[Store, SearchIndex]]:
    """The same records in a home of this test's own."""
    store = fill(make_home(Settings(tmp_path / "home", testing=True)))
    index = SearchIndex(store.settings.index)
    index.rebuild(store)
    yield store, index
    index.close()
    store.close()
