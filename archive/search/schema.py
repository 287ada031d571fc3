"""The fields of the index and how Whoosh writes them."""

from __future__ import annotations

from array import array
from collections import defaultdict
from collections.abc import Iterator
from typing import Any

from whoosh import analysis, columns, fields, formats
from whoosh.codec.whoosh3 import LENGTHS_COLUMN, W3Codec, W3PerDocReader
from whoosh.util.numeric import byte_to_length

from archive.search.words import stems_placed, words_of

FORMAT = 1
"""Raised when the fields or the folding change, so that an older index is made again."""

_LENGTHS = [byte_to_length(code) for code in range(256)]
LAST_PLACE = 0xFF00
TITLE_BOOST = 2.0

FACETS = ("kind", "speaker", "decade", "process", "station", "object", "term", "interview")
"""Fields of references that a hit can be counted and filtered by."""

NAMED = {"speaker": "speaker_name", "process": "process_name", "station": "station_name", "object": "object_name"}
"""Fields in which a reader may write a name instead of a reference."""


class Folding(analysis.Analyzer):  # type: ignore[misc]
    """Whoosh's stemming analyser with our folding and no stop words, since people quote whole phrases."""

    def __call__(self, value: str, **_options: Any) -> Iterator[Any]:
        token = analysis.Token(positions=True, chars=True)
        for place, word in enumerate(words_of(value)):
            token.text, token.pos, token.boost, token.stopped = word.stem, place, 1.0, False
            token.startchar, token.endchar = word.start, word.end
            yield token


class Placed(formats.Positions):  # type: ignore[misc]
    """Stems with their places, two bytes a place, so that a whole posting list becomes an array at once."""

    def word_values(self, value: str, _analyzer: Any, **_options: Any) -> Iterator[tuple[str, int, float, bytes]]:
        places: defaultdict[str, list[int]] = defaultdict(list)
        for stem, place in stems_placed(value):
            places[stem].append(min(place, LAST_PLACE))
        for stem, held in places.items():
            yield stem, len(held), float(len(held)), self.encode(held)

    def encode(self, places: list[int]) -> bytes:
        return array("H", places).tobytes()

    def decode_positions(self, value: bytes) -> list[int]:
        return list(array("H", value))

    def decode_frequency(self, value: bytes) -> int:
        return len(value) // 2

    def decode_weight(self, value: bytes) -> float:
        return len(value) / 2

    def combine(self, values: list[bytes]) -> bytes:
        return self.encode(sorted(place for value in values for place in self.decode_positions(value)))


class Written(formats.Existence):  # type: ignore[misc]
    """Words as they are written, without places: for beginnings of words and for suggestions."""

    def word_values(self, value: str, _analyzer: Any, **_options: Any) -> Iterator[tuple[str, int, float, bytes]]:
        for word in {word.plain for word in words_of(value)}:
            yield word, 1, 1.0, b""


class Stems(Written):
    """Stems without places, for names in field words."""

    def word_values(self, value: str, _analyzer: Any, **_options: Any) -> Iterator[tuple[str, int, float, bytes]]:
        for stem in {word.stem for word in words_of(value)}:
            yield stem, 1, 1.0, b""


class WholeLengths(W3PerDocReader):  # type: ignore[misc]
    """Whoosh asks for the length of a field once for every posting it writes; the column is read at once instead."""

    def __init__(self, storage: Any, segment: Any) -> None:
        super().__init__(storage, segment)
        self._held: dict[str, bytes] = {}

    def doc_field_length(self, docnum: int, fieldname: str, default: int = 0) -> int:
        if fieldname not in self._held:
            self._held[fieldname] = self._read(f"_{fieldname}_len")
        held = self._held[fieldname]
        return _LENGTHS[held[docnum]] if docnum < len(held) else default

    def _read(self, column: str) -> bytes:
        if not self.has_column(column):
            return b""
        values = self.column_reader(column, LENGTHS_COLUMN)
        read: bytes = values._dbfile.get(values._basepos, values._count)
        return read


class WholeCodec(W3Codec):  # type: ignore[misc]
    """Whoosh's codec with longer blocks, since they are read whole and never skipped in."""

    def per_document_reader(self, storage: Any, segment: Any) -> Any:
        return WholeLengths(storage, segment)


def make_schema() -> Any:
    """The schema; `key` is unique, `id` is a column of numbers, `words` of a term is stored for the thesaurus."""
    named = {field: _of(fields.KEYWORD(), Stems()) for field in NAMED.values()}
    return fields.Schema(
        key=fields.ID(unique=True),
        access=fields.ID(),
        id=fields.COLUMN(columns.NumericColumn("I")),
        term_words=fields.STORED(),
        text=_of(fields.TEXT(analyzer=Folding()), Placed()),
        title=_of(fields.TEXT(analyzer=Folding()), Placed()),
        words=_of(fields.KEYWORD(scorable=True), Written()),
        **{facet: _of(fields.KEYWORD(), formats.Existence()) for facet in FACETS},
        **named,
    )


def make_codec() -> Any:
    """The codec that segments are written and read with."""
    return WholeCodec(blocklimit=1024, compression=1)


def _of(field: Any, written_as: Any) -> Any:
    field.format = written_as
    return field
