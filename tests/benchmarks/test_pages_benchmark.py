"""Server time of the kiosk's pages on the demo collection, and how soon the demo is ready to serve.

pytest tests/benchmarks/test_pages_benchmark.py --benchmark-only -p no:xdist
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from archive.exchange.loading import load
from archive.search.gateway import SearchIndex
from archive.settings import Settings, shared_folder
from archive.store.homes import make_home

PAGES = (
    "/kiosk/",
    "/kiosk/stations/st-drop-stamp",
    "/kiosk/stations/st-fly-row",
    "/kiosk/processes/",
    "/kiosk/processes/pr-anneal",
    "/kiosk/objects/",
    "/kiosk/objects/TY.1984.12",
    "/kiosk/voices/C-08",
    "/kiosk/terms/",
)


@pytest.mark.parametrize("address", PAGES)
def test_a_kiosk_page(benchmark: Any, demo_client: FlaskClient, address: str) -> None:
    """One request, from the server's side; the aim is 40 ms at the median."""
    answer = benchmark.pedantic(demo_client.get, (address,), rounds=40, warmup_rounds=3)
    assert answer.status_code == 200


def test_the_demo_is_ready(benchmark: Any, tmp_path: Path) -> None:
    """From an empty home to records, copies to listen to and index; the aim is 15 s on two cores."""

    def make() -> int:
        store = make_home(Settings(tmp_path / "home", testing=True))
        load(store, shared_folder("demo-collection"))
        count = SearchIndex(store.settings.index).rebuild(store)
        store.close()
        return count

    assert benchmark.pedantic(make, rounds=1) > 0
