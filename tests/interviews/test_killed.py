"""Making renditions, killed in the middle of it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from sqlalchemy import select

from archive.interviews.model import Rendition
from archive.interviews.renditions import make_missing
from archive.settings import Settings
from archive.store.homes import make_home
from tests.interviews.test_renditions import add_recording

# Says which processes work, then stays inside the first progress call until it is killed.
SCRIPT = """
import multiprocessing, sys, threading
from pathlib import Path
import archive.records
from archive.interviews import renditions
from archive.settings import Settings
from archive.store.session import Store

def tell(done, of, ref):
    print(*(process.pid for process in multiprocessing.active_children()), flush=True)
    threading.Event().wait()

if __name__ == "__main__":
    renditions._WORTH_PROCESSES_MS = 0
    renditions.make_missing(Store(Settings(Path(sys.argv[1]))), tell)
"""


@pytest.mark.skipif(os.name == "nt", reason="needs SIGKILL and the pipe that tells when all its writers are gone")
def test_killed_it_leaves_a_sound_home_and_no_process(tmp_path: Path) -> None:
    """After kill -9 the rows rest on whole files, the workers end too, and the next run makes the rest."""
    store = make_home(Settings(tmp_path / "home", testing=True))
    for number in range(1, 5):
        add_recording(store, tmp_path, f"I-0{number}-a", seconds=1 + number / 10)
    script = tmp_path / "make.py"
    script.write_text(SCRIPT)
    with subprocess.Popen(
        [sys.executable, str(script), str(tmp_path / "home")], stdout=subprocess.PIPE, text=True
    ) as made:
        assert made.stdout is not None
        workers = made.stdout.readline().split()
        made.kill()
        # The workers hold the other ends of this pipe: reading to its end waits until the last of them is gone.
        made.stdout.read()
    assert len(workers) == 2
    with store.session() as session:
        rows = session.scalars(select(Rendition)).all()
        assert len(rows) == 3
        assert all(store.files.holds(row.sha256) for row in rows)
    assert make_missing(store).made == 9
    assert make_missing(store).made == 0
    store.close()
