"""Lemel's search through its whole path against SQLite FTS5 doing the same job, on the same data in the same run.

    pytest tests/benchmarks/test_search_benchmark.py --override-ini addopts=--import-mode=importlib

LEMEL_BENCHMARK_SEGMENTS sets the size (100,000), LEMEL_MEASURED a file to write the table to. No time is asserted.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import cycle
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from archive.interviews.model import Segment
from archive.search.asking import find
from archive.search.following import update
from archive.search.gateway import SearchIndex
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from archive.store.touched import Touched
from tests.benchmarks.fts5 import Fts5
from tests.benchmarks.generated import (
    QUERIES,
    SEGMENTS_IN_INTERVIEW,
    VIEWER,
    Text,
    fill,
    generated_text,
    questions,
)

SEGMENTS = int(os.environ.get("LEMEL_BENCHMARK_SEGMENTS", "100000"))
ROUNDS = 8
ENGINES = {"lemel": "Lemel", "fts5 page": "FTS5, same page", "fts5": "FTS5, bare"}
CLASSES = ("common word", "rare word", "two words", "phrase", "prefix")


@dataclass
class Bench:
    """Both engines on one database, and what was measured of them: seconds by class and engine."""

    store: Store
    index: SearchIndex
    fts5: Fts5
    text: Text
    asked: dict[str, list[str]]
    measured: dict[tuple[str, str], list[float]] = field(default_factory=dict)

    def table(self) -> str:
        """Median and p95 in milliseconds, and the ratio of the medians."""
        lines = [f"{SEGMENTS:,} segments; milliseconds, median / p95; the ratio is FTS5's median to Lemel's", ""]
        lines += [
            f"| class | {' | '.join(ENGINES.values())} | ratio, same page | ratio, bare |",
            "|---|---|---|---|---|---|",
        ]
        for name in dict.fromkeys(name for name, _ in self.measured):
            held = {engine: self.measured.get((name, engine)) for engine in ENGINES}
            ratios = (_ratio(held[engine], held["lemel"]) for engine in ("fts5 page", "fts5"))
            lines.append(f"| {name} | {' | '.join(map(_figures, held.values()))} | {' | '.join(ratios)} |")
        return "\n".join(lines) + "\n"


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    """The generated collection, both indexes built; at the end the table is printed."""
    store = make_home(Settings(tmp_path_factory.mktemp("bench") / "home", testing=True))
    text = generated_text(SEGMENTS)
    fill(store, text)
    fts5 = Fts5(store.settings.home / "lemel.sqlite")
    made = Bench(store, SearchIndex(store.settings.index), fts5, text, questions(text))
    began = time.perf_counter()
    made.index.rebuild(store)
    made.measured["index build", "lemel"] = [time.perf_counter() - began]
    made.measured["index build", "fts5"] = [fts5.build()]
    yield made
    print("\n" + made.table())
    if "LEMEL_MEASURED" in os.environ:
        Path(os.environ["LEMEL_MEASURED"]).write_text(made.table(), "utf-8")
    made.index.close()
    fts5.close()
    store.close()


@pytest.mark.parametrize("name", CLASSES)
@pytest.mark.parametrize("engine", ENGINES)
def test_ask(bench: Bench, benchmark: Any, name: str, engine: str) -> None:
    """The top 20 with rights, total, names and snippets, warm."""
    ask: dict[str, Callable[[str], Any]] = {
        "lemel": lambda text: find(bench.store, bench.index, VIEWER, text, facets=()),
        "fts5 page": lambda text: bench.fts5.page(bench.store, text),
        "fts5": bench.fts5.find,
    }
    for text in bench.asked[name]:
        ask[engine](text)
    following = cycle(bench.asked[name])
    benchmark.pedantic(ask[engine], setup=lambda: ((next(following),), {}), rounds=QUERIES * ROUNDS, iterations=1)
    bench.measured[name, engine] = list(benchmark.stats.stats.data)


@pytest.mark.parametrize("name", CLASSES)
def test_both_find_the_same(bench: Bench, name: str) -> None:
    """The two count the same segments, so that they are measured on the same job."""
    for text in bench.asked[name]:
        if name != "prefix":  # FTS5 looks for beginnings of stems, Lemel for beginnings of words as written.
            assert find(bench.store, bench.index, VIEWER, text, facets=()).total == bench.fts5.find(text)[0], text


@pytest.mark.parametrize("engine", ["lemel", "fts5"])
def test_replace_an_interview(bench: Bench, benchmark: Any, engine: str) -> None:
    """One interview's segments are taken out and put in again, in one synced commit."""
    keys = iter(range(1, SEGMENTS // SEGMENTS_IN_INTERVIEW, max(1, SEGMENTS // SEGMENTS_IN_INTERVIEW // 13)))

    def replace(key: int) -> None:
        if engine == "fts5":
            bench.fts5.replace(key)
        else:
            first = (key - 1) * SEGMENTS_IN_INTERVIEW + 1
            touched = Touched(Segment.__tablename__, first, "", (("recording_id", key),))
            update(bench.store, bench.index, [touched])

    benchmark.pedantic(replace, setup=lambda: ((next(keys),), {}), rounds=12, iterations=1)
    bench.measured["replace one interview", engine] = list(benchmark.stats.stats.data)


def _figures(seconds: list[float] | None) -> str:
    if seconds is None:
        return "–"
    return f"{np.median(seconds) * 1000:.2f} / {np.percentile(seconds, 95) * 1000:.2f}"


def _ratio(theirs: list[float] | None, ours: list[float] | None) -> str:
    return f"{np.median(theirs) / np.median(ours):.2f}" if theirs and ours else "–"
