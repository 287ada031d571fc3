"""Two loads into one home at the same time: one comes first, the other is told so in words, or takes its place."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier

import pytest

from archive.errors import Conflict
from archive.exchange import loading
from archive.exchange.loading import load
from archive.settings import Settings
from archive.store.fixity import check_files
from archive.store.homes import make_home
from archive.store.session import Store
from tests.small_collection import write_small_collection


@pytest.mark.parametrize(("replace", "refused"), [(False, 1), (True, 0)])
def test_the_second_of_two_loads(
    empty_home: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, replace: bool, refused: int
) -> None:
    """Both have read their folder and kept their files before either stores a record."""
    folder, together = write_small_collection(tmp_path / "small"), Barrier(2)
    store_records = loading._store

    def meet_and_store(*given: object) -> object:
        together.wait(60)
        return store_records(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(loading, "_store", meet_and_store)
    homes = [empty_home, make_home(Settings(empty_home.settings.home, testing=True))]
    with ThreadPoolExecutor(2) as pool:
        loads = [pool.submit(load, home, folder, replace=replace) for home in homes]
    problems = [problem for one in loads if (problem := one.exception())]
    homes[1].close()
    assert len(problems) == refused
    assert all(isinstance(problem, Conflict) and "holds a collection already" in str(problem) for problem in problems)
    assert check_files(empty_home) == []
