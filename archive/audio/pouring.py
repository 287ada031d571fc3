"""One sound poured once, block by block, into everything that measures or writes it; encoders run beside it."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Protocol

from archive.audio.reading import Block, Sound
from archive.audio.writing import Form, Writer, writing

# Blocks that may wait for an encoder; more would only take memory.
_MOST_WAITING = 4
_ASIDE = ".part"


class Taker(Protocol):
    """Whatever takes the blocks of one sound, in order."""

    def take(self, block: Block) -> None:
        """Take the next block."""


def pour(blocks: Iterable[Block], takers: Iterable[Taker]) -> None:
    """Give each block to every taker."""
    everyone = tuple(takers)
    for block in blocks:
        for taker in everyone:
            taker.take(block)


class WriterBeside:
    """A writer in a thread of its own: encoders let other threads run, so two of them keep two cores busy."""

    def __init__(self, writer: Writer) -> None:
        self._writer = writer
        self._thread = ThreadPoolExecutor(1, "encoder")
        self._waiting: deque[Future[None]] = deque()

    def take(self, block: Block) -> None:
        """Hand a block over, waiting where too many wait already; raises what went wrong with an earlier one."""
        self._waiting.append(self._thread.submit(self._writer.take, block))
        if len(self._waiting) > _MOST_WAITING:
            self._waiting.popleft().result()

    def finish(self) -> None:
        """Wait until all has been written; raises what went wrong."""
        while self._waiting:
            self._waiting.popleft().result()

    def let_go(self) -> None:
        """End the thread, whatever came of it."""
        self._thread.shutdown(cancel_futures=True)


@contextmanager
def writers(sound: Sound, targets: Mapping[Path, Form]) -> Iterator[tuple[WriterBeside, ...]]:
    """A writer for each target. Files are made aside and take their names together, when all is well."""
    with ExitStack() as made:
        for path in targets:
            made.callback(_aside(path).unlink, missing_ok=True)
        with ExitStack() as opened:
            started = tuple(_started(opened, sound, path, form) for path, form in targets.items())
            yield started
            for writer in started:
                writer.finish()
        for path in targets:
            _aside(path).replace(path)


def _started(opened: ExitStack, sound: Sound, path: Path, form: Form) -> WriterBeside:
    beside = WriterBeside(opened.enter_context(writing(_aside(path), form, sound)))
    opened.callback(beside.let_go)
    return beside


def _aside(path: Path) -> Path:
    return path.with_name(path.name + _ASIDE)
