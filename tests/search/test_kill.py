"""A process that is killed while it writes leaves an index that opens and answers from a whole commit."""

from __future__ import annotations

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from archive.search.document import Document
from archive.search.gateway import SearchIndex

OPEN = frozenset({"open"})
KILLS = 5

# Every commit puts one number into all ten documents; every third is a rebuild.
WRITER = """
import sys
from itertools import count
from pathlib import Path
from archive.search.document import Document
from archive.search.gateway import SearchIndex
index = SearchIndex(Path(sys.argv[1]))
for turn in count(int(sys.argv[2])):
    documents = [Document("segment", number, "open", f"brass turn{turn}") for number in range(10)]
    if turn % 3:
        index.put(documents, stamp=lambda: str(turn))
    else:
        index.rebuild_from(documents, stamp=lambda: str(turn))
    print(turn, flush=True)
"""


def _write_until_killed(folder: Path, first: int, commits: int) -> int:
    """Kill the writer in the midst of the commit after so many; gives the last turn that it said was done."""
    with subprocess.Popen([sys.executable, "-c", WRITER, str(folder), str(first)], stdout=subprocess.PIPE) as writer:
        assert writer.stdout is not None
        done = [int(writer.stdout.readline()) for _ in range(commits)][-1]
        writer.send_signal(signal.SIGKILL)
        said = writer.stdout.read().split()
    return int(said[-1]) if said else done


@pytest.mark.slow
def test_a_killed_writer_leaves_a_whole_commit(tmp_path: Path) -> None:
    """After each of several kills all ten documents are there, all of one turn, and that turn was done or begun."""
    folder = tmp_path / "index"
    index = SearchIndex(folder)
    index.rebuild_from([Document("segment", number, "open", "brass turn0") for number in range(10)], stamp=lambda: "0")
    turn = 0
    for kill in range(KILLS):
        turn = _write_until_killed(folder, turn + 1, commits=2 + kill)
        for reader in (index, SearchIndex(folder)):
            assert reader.ask("brass", OPEN).total == 10
            whole = [reader.ask(f"turn{number}", OPEN).total for number in (turn, turn + 1)]
            assert sorted(whole) == [0, 10]
            reader.close()
    index.put([Document("segment", 3, "open", "copper")], stamp=lambda: "last")
    assert (index.ask("brass", OPEN).total, index.ask("copper", OPEN).total) == (9, 1)
    index.close()
