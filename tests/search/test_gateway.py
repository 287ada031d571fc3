"""The index as a keeper of documents: commits, swaps, other processes, threads, failures."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from archive.errors import Conflict, NotReady
from archive.search.document import Document
from archive.search.folder import IndexFolder
from archive.search.gateway import SearchIndex

OPEN = frozenset({"open"})


def _documents(first: int, last: int, word: str) -> list[Document]:
    return [Document("segment", number, "open", f"{word} number{number}") for number in range(first, last)]


def _put(index: SearchIndex, documents: list[Document]) -> None:
    index.put(documents, stamp=lambda: "later")


@pytest.fixture
def index(tmp_path: Path) -> Iterator[SearchIndex]:
    """Ten documents with the word brass."""
    made = SearchIndex(tmp_path / "index")
    made.rebuild_from(_documents(0, 10, "brass"), stamp=lambda: "first")
    yield made
    made.close()


def test_a_missing_index_says_how_to_make_it(tmp_path: Path) -> None:
    """Neither asking nor putting makes an index by itself."""
    index = SearchIndex(tmp_path / "none")
    assert index.stamp is None
    with pytest.raises(NotReady, match="lemel reindex"):
        index.ask("brass", OPEN)
    with pytest.raises(NotReady, match="lemel reindex"):
        _put(index, [])


def test_an_index_of_an_older_format_is_not_read(index: SearchIndex, tmp_path: Path) -> None:
    """When the fields or the folding change, the index must be made again."""
    place = IndexFolder(tmp_path / "index").present()
    assert place is not None
    (place / "stamp").write_text(json.dumps({"format": 0, "stamp": "first"}))
    assert index.stamp is None
    with pytest.raises(NotReady):
        SearchIndex(tmp_path / "index").ask("brass", OPEN)


def test_put_replaces_and_remove_removes(index: SearchIndex) -> None:
    """A document with the same key takes the place of the old one."""
    _put(index, _documents(3, 5, "copper"))
    assert (index.ask("brass", OPEN).total, index.ask("copper", OPEN).total) == (8, 2)
    index.remove([("key", "segment:3")], stamp=lambda: "last")
    assert (index.ask("copper", OPEN).total, index.stamp) == (1, "last")


def test_an_empty_index_answers(tmp_path: Path) -> None:
    """A collection without records has an index, and finds nothing in it."""
    index = SearchIndex(tmp_path / "index")
    assert index.rebuild_from([], stamp=lambda: "") == 0
    assert index.ask("brass", OPEN, facets=["kind"]).total == 0
    assert index.suggest("br", OPEN) == []
    _put(index, _documents(0, 1, "brass"))
    assert index.ask("brass", OPEN).total == 1


def test_a_failed_commit_leaves_all_as_it_was(index: SearchIndex) -> None:
    """A document that cannot be made stops the commit; the lock is free for the next."""

    def breaking() -> Iterator[Document]:
        yield from _documents(3, 5, "copper")
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        index.put(breaking(), stamp=lambda: "never")
    assert (index.ask("copper", OPEN).total, index.stamp) == (0, "first")
    _put(index, _documents(3, 5, "copper"))
    assert index.ask("copper", OPEN).total == 2


def test_a_failed_rebuild_leaves_the_old_index_in_use(index: SearchIndex) -> None:
    """The new one is put into use only when it is whole."""

    def breaking() -> Iterator[Document]:
        yield from _documents(0, 3, "copper")
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        index.rebuild_from(breaking(), stamp=lambda: "never")
    assert (index.ask("brass", OPEN).total, index.ask("copper", OPEN).total) == (10, 0)


def test_a_rebuild_swaps_and_clears_away(index: SearchIndex, tmp_path: Path) -> None:
    """Only the folder in use is left, whatever lay there from a rebuild that was killed."""
    (tmp_path / "index" / "bkilled").mkdir()
    index.rebuild_from(_documents(0, 4, "copper"), stamp=lambda: "second")
    assert (index.ask("brass", OPEN).total, index.ask("copper", OPEN).total) == (0, 4)
    assert len([path for path in (tmp_path / "index").iterdir() if path.is_dir()]) == 1


def test_one_writer_at_a_time(tmp_path: Path) -> None:
    """A second writer waits, and gives up with words that say what to do."""
    place = IndexFolder(tmp_path)
    with place.writing(), pytest.raises(Conflict, match="lemel reindex"), IndexFolder(tmp_path).writing(0.05):
        pytest.fail("two writers at once")
    with place.writing(0):
        pass


COMMIT = """
import sys
from pathlib import Path
from archive.search.document import Document
from archive.search.gateway import SearchIndex
index = SearchIndex(Path(sys.argv[1]))
if sys.argv[2] == "put":
    index.put([Document("segment", 77, "open", "zinc")], stamp=lambda: "theirs")
else:
    index.rebuild_from([Document("segment", 78, "open", "zinc")], stamp=lambda: "theirs")
"""


def _in_another_process(folder: Path, deed: str) -> None:
    subprocess.run([sys.executable, "-c", COMMIT, str(folder), deed], check=True, timeout=60)


@pytest.mark.parametrize(("deed", "left"), [("put", 10), ("rebuild", 0)])
def test_what_another_process_commits_is_noticed(index: SearchIndex, tmp_path: Path, deed: str, left: int) -> None:
    """The next question after a commit or a swap by another process is answered from it."""
    assert index.ask("zinc", OPEN).total == 0
    _in_another_process(tmp_path / "index", deed)
    assert (index.ask("zinc", OPEN).total, index.ask("brass", OPEN).total) == (1, left)
    assert index.stamp == "theirs"


def test_threads_may_share_it_while_it_is_written(index: SearchIndex) -> None:
    """Every answer is of some whole commit: the two words change places together, and are never both or neither."""

    def ask(_number: int) -> tuple[int, int]:
        found = index.ask("brass OR copper", OPEN, limit=20)
        return found.total, len({hit.id for hit in found.hits})

    with ThreadPoolExecutor(4) as threads:
        answers = threads.map(ask, range(120))
        for turn in range(4):
            _put(index, _documents(0, 10, "copper" if turn % 2 else "brass"))
        assert set(answers) == {(10, 10)}


def test_files_are_let_go(index: SearchIndex) -> None:
    """Each commit opens a new reader and closes the old one: no file stays open."""
    descriptors = Path("/proc/self/fd")
    if not descriptors.is_dir():
        pytest.skip("this system does not list open files")
    index.ask("brass", OPEN)
    before = len(list(descriptors.iterdir()))
    for turn in range(6):
        _put(index, _documents(turn, turn + 1, "copper"))
        index.ask("copper", OPEN)
    assert len(list(descriptors.iterdir())) <= before + 3  # a few segments more, not one reader a commit
