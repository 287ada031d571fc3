"""Serving a home to browsers, with a second process beside the server that does the work in the background."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any, BinaryIO

from archive.errors import Conflict
from archive.store.session import Store


def serve(store: Store, host: str, port: int, say: Callable[[str], None]) -> None:
    """Serve until stopped; what is worth telling is said in words. Conflict when the port cannot be opened."""
    from waitress.server import create_server

    from archive.app import create_app
    from archive.search.gateway import SearchIndex
    from archive.search.keeping import bring_in_step

    if bring_in_step(store, SearchIndex(store.settings.index)):
        say("The search index was behind the records and has been made anew.")
    app = create_app(store)
    try:
        server: Any = create_server(app, host=host, port=port, threads=8, ident=None, max_request_body_size=2 << 20)
    except OSError as problem:
        raise Conflict(f"Port {port} cannot be opened ({problem.strerror}). Try --port {port + 1}.") from problem
    # Port 0 asks the system for a free one, so the address is told as it came out; a name may stand for several.
    listening = server.effective_listen if hasattr(server, "effective_listen") else [(host, server.effective_port)]
    with _worker(store):
        say(f"Open http://{host}:{listening[0][1]}/ in a browser. Stop with Ctrl+C.")
        try:
            server.run()
        finally:
            server.close()
            store.close()


def work(store: Store, *, with_parent: bool = False) -> None:
    """Do the home's jobs until stopped.

    With its parent: until the process that started this one is gone; and where another does the jobs already, this one
    stands by to follow it.
    """
    from archive.tasks import queue

    if with_parent:
        threading.Thread(target=_end_after, args=(sys.stdin.buffer,), daemon=True).start()
    queue.work(store, stand_by=with_parent)


@contextmanager
def _worker(store: Store) -> Iterator[None]:
    """A process that does the home's jobs. It reads from this one's pipe, and ends when the pipe does."""
    command = [sys.executable, "-m", "archive", "--home", str(store.settings.home), "work", "--with-parent"]
    worker = subprocess.Popen(command, stdin=subprocess.PIPE)
    try:
        yield
    finally:
        if worker.stdin is not None:
            worker.stdin.close()
        worker.wait()


def _end_after(pipe: BinaryIO) -> None:
    """End at once: a job that is cut short is begun again by whoever works next."""
    pipe.read()
    os._exit(0)
