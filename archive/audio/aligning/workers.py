"""Two processes beside this one that hear and lay words; they end when this one does, however it ends."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from queue import SimpleQueue
from typing import IO, Any

import archive
from archive.audio.aligning.model import Heard, Stop, StoppedError
from archive.errors import Conflict

MOST = 2


@dataclass(frozen=True)
class Asked:
    """A stretch to hear, or, where there are words, to lay them on."""

    key: int
    start_ms: int
    end_ms: int
    words: tuple[str, ...] | None = None

    @property
    def line(self) -> str:
        """What the process is told."""
        told: dict[str, Any] = {"key": self.key, "start_ms": self.start_ms, "end_ms": self.end_ms}
        return json.dumps(told if self.words is None else {**told, "words": self.words})


@dataclass
class Workers:
    """The processes, handed out one question at a time."""

    pids: tuple[int, ...]
    _free: SimpleQueue[subprocess.Popen[str]]
    _pool: ThreadPoolExecutor

    def ask(self, questions: Iterable[Asked], stop: Stop) -> Iterator[tuple[Asked, list[Heard] | None]]:
        """The answers as they come; raises StoppedError as soon as it is asked to stop."""
        waiting: dict[Future[list[Heard] | None], Asked] = {}
        for asked in questions:
            waiting[self._pool.submit(self._one, asked)] = asked
        try:
            while waiting:
                done, _rest = wait(waiting, timeout=0.5, return_when=FIRST_COMPLETED)
                if stop():
                    raise StoppedError
                for answer in done:
                    yield waiting.pop(answer), answer.result()
        finally:
            for answer in waiting:
                answer.cancel()

    def _one(self, asked: Asked) -> list[Heard] | None:
        process = self._free.get()
        try:
            assert process.stdin is not None
            assert process.stdout is not None
            process.stdin.write(asked.line + "\n")
            process.stdin.flush()
            answer = process.stdout.readline()
        except BrokenPipeError:
            answer = ""
        finally:
            self._free.put(process)
        if not answer:
            raise Conflict("A process that listens to the sound has ended too early. Ask for the alignment again.")
        words = json.loads(answer)["words"]
        return None if words is None else [Heard(*word) for word in words]


@contextmanager
def workers(folder: Path) -> Iterator[Workers]:
    """The processes of a folder with samples, dictionary and language model."""
    count = min(MOST, os.cpu_count() or 1)
    root = str(Path(archive.__file__).parents[1])
    paths = os.pathsep.join(filter(None, (root, os.environ.get("PYTHONPATH", ""))))
    command = [sys.executable, "-m", "archive.audio.aligning.decoder", str(folder)]
    made = [
        subprocess.Popen(
            command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            encoding="utf-8",
            env={**os.environ, "PYTHONPATH": paths},
        )
        for _ in range(count)
    ]
    free: SimpleQueue[subprocess.Popen[str]] = SimpleQueue()
    for process in made:
        free.put(process)
    pool = ThreadPoolExecutor(count)
    try:
        yield Workers(tuple(process.pid for process in made), free, pool)
    finally:
        _end(made)
        pool.shutdown(cancel_futures=True)


def _end(made: Iterable[subprocess.Popen[str]]) -> None:
    """End the processes; what they were at is not wanted any more."""
    for process in made:
        process.kill()
    for process in made:
        process.wait()
        for pipe in (process.stdin, process.stdout):
            with suppress(BrokenPipeError):
                _close(pipe)


def _close(pipe: IO[str] | None) -> None:
    if pipe is not None:
        pipe.close()
