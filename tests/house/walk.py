"""A walk over every address of the house, asked in every way that its page listens to, looking for words."""

from __future__ import annotations

import html
import io
import itertools
import re
import zipfile
from collections.abc import Iterable, Iterator
from typing import Any
from urllib.parse import unquote

from flask import Flask, Request
from flask.testing import FlaskClient
from werkzeug.datastructures import ImmutableMultiDict
from werkzeug.routing import AnyConverter, IntegerConverter, PathConverter, Rule

from archive.rights.decisions import MAY_ASK, Role
from tests.house.planted import IN_CARE, NEVER, REFS

_EVERYTHING = "*"


class _Heard(ImmutableMultiDict[str, str]):
    """The questions of an address, which writes down those that the page looked for, there or not."""

    names: set[str] = set()  # noqa: RUF012  one walk at a time, in one thread

    def __getitem__(self, key: str) -> str:
        self.names.add(key)
        return super().__getitem__(key)

    def __contains__(self, key: object) -> bool:
        self.names.add(str(key))
        return super().__contains__(key)

    def __iter__(self) -> Iterator[str]:
        self.names.add(_EVERYTHING)
        return super().__iter__()

    def getlist(self, key: str, *arguments: Any, **named: Any) -> Any:
        self.names.add(key)
        return super().getlist(key, *arguments, **named)

    def items(self, multi: bool = False) -> Any:
        self.names.add(_EVERYTHING)
        return super().items(multi)


class _HeardRequest(Request):
    parameter_storage_class = _Heard


def walk(app: Flask, client: FlaskClient, role: Role) -> Iterator[tuple[str, Any]]:
    """Every address and its answer: plain, and asked about times and words where the page looked for such questions."""
    app.request_class = _HeardRequest
    for rule, path in addresses(app):
        _Heard.names.clear()
        yield path, client.get(path)
        heard = set(_Heard.names)
        for asked in _asked(role, heard, everywhere=not rule.arguments):
            address = f"{path}?{asked}"
            yield address, client.get(address)


def leaks(app: Flask, client: FlaskClient, role: Role, words: Iterable[str]) -> Iterator[str]:
    """Every address at which this browser finds one of the words: in the body, a header or a file name."""
    everywhere, in_care = (re.compile("|".join(map(re.escape, each)), re.IGNORECASE) for each in (tuple(words), NEVER))
    routes = app.url_map.bind("localhost")
    for address, answer in walk(app, client, role):
        kept = role is Role.KEEPER and routes.match(address.partition("?")[0])[0] in IN_CARE
        wanted = in_care if kept else everywhere
        assert answer.status_code != 500, f"{address} broke"
        told = "\n".join([*(f"{name}: {value}" for name, value in answer.headers), *_parts_of(answer.get_data())])
        answer.close()
        # What the browser asked with comes back in the address of the next page or a search box, and is no leak.
        told = html.unescape(unquote(told)).replace(address, "")
        for hit in wanted.finditer(told):
            yield f"{role} at {address}: …{told[max(0, hit.start() - 60) : hit.end() + 40]!r}…"


def _parts_of(body: bytes) -> list[str]:
    """An answer's body; of a packed folder the names and the bytes of all that is in it."""
    if not body.startswith(b"PK"):
        return [body.decode("latin-1")]
    with zipfile.ZipFile(io.BytesIO(body)) as packed:
        return [*packed.namelist(), *(packed.read(name).decode("latin-1") for name in packed.namelist())]


def addresses(app: Flask) -> Iterator[tuple[Rule, str]]:
    """Every route of the URL map that can be read, filled with every reference there is."""
    for rule in app.url_map.iter_rules():
        if "GET" in (rule.methods or set()) and rule.endpoint != "static":
            yield from ((rule, path) for path in _filled(rule))


_REFS_OPEN = """
    I-1 I-2 I-1-a I-2-a C-1 C-2 C-3 C-8 P-1 P-2 P-3 P-4 SM.1 SM.2 SM.3 st-press st-bench pr-cut pr-pack hz-noise
    t-brass s-book s-tools s-rumour t-short ground shop tl-badge dm-press SM.1.png 0 dp-1
    t-anybody-60-minutes-30-december-2019 job-1 job-2 office-1-done office-1-failed office-1-arriving
""".split()  # noqa: SIM905
_GUIDES = ("Ada", "guide", *REFS)
_SUMS = ("metal/cold-reduction", *REFS)
_DAYS = ("2019-12-30", "2026-11-25", "soon")
_REFS_CLOSED = [f"{before}{word}{after}" for word in REFS for before, after in
                (("", ""), ("", "-a"), ("C-", ""), ("P-", ""), ("s-", ""), ("tl-", ""), ("tl-talk-", ""))]  # fmt: skip


def _filled(rule: Rule) -> Iterator[str]:
    if not rule.arguments:
        yield rule.rule
        return
    names = sorted(rule.arguments)
    for chosen in itertools.product(*(_values(rule, name) for name in names)):
        built = rule.build(dict(zip(names, chosen, strict=True)))
        assert built is not None
        yield built[1]


def _values(rule: Rule, argument: str) -> Iterable[Any]:
    """What may stand in a place of an address: the few words it allows, a number, or any reference there is."""
    converter = rule._converters[argument]
    if isinstance(converter, PathConverter):
        return _SUMS
    if argument in ("date", "name"):
        return _DAYS if argument == "date" else _GUIDES
    if isinstance(converter, AnyConverter):
        return sorted(converter.items)
    return (0, 1, 7) if isinstance(converter, IntegerConverter) else (*_REFS_OPEN, *_REFS_CLOSED)


# Beginnings, near spellings and neighbours, which would bring closed words up if they could be reached.
_QUESTIONS = ("hollyho*", "hollyhok", "sarsapari*", "quatref*", "quatrefoyl", "zebed*", "press", "188*", "forewom*")


def _asked(role: Role, heard: set[str], *, everywhere: bool) -> Iterator[str]:
    """The questions that a page which looked for these would hear."""
    if heard & {"t", _EVERYTHING}:
        yield "t=9,11"
    if everywhere and heard & {"q", _EVERYTHING}:
        for question in _QUESTIONS:
            yield f"q={question}"
            if heard & {"purpose", _EVERYTHING}:
                yield from (f"q={question}&purpose={purpose}" for purpose in sorted(MAY_ASK[role]))
