"""Documents that are zip archives, opened with care: never more than fits, never an entity, never anything outside."""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from xml.etree.ElementTree import Element, ParseError

import defusedxml.ElementTree
from defusedxml import DefusedXmlException

from archive.errors import CannotRead

MOST_PARTS = 5_000
MOST_OF_ONE, MOST_OF_ALL = 32 << 20, 256 << 20
DEEPEST = 200
_MOST_TIMES = 400
_MB = 1 << 20


@dataclass(frozen=True)
class Package:
    """An opened document: its parts by name, read one at a time."""

    where: str
    archive: zipfile.ZipFile

    @property
    def names(self) -> Sequence[str]:
        """Every part."""
        return self.archive.namelist()

    def read(self, name: str) -> bytes:
        """The bytes of a part, within what one part may have."""
        try:
            with self.archive.open(name) as part:
                content = part.read(MOST_OF_ONE + 1)
        except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError) as problem:
            found = f"its part {name[:80]} cannot be unpacked"
            raise CannotRead(self.where, 0, found, "Open it in a word processor and save it again") from problem
        if len(content) > MOST_OF_ONE:
            raise _too_large(self.where)
        return content

    def tree(self, name: str) -> Element:
        """A part as XML."""
        return tree_of(self.read(name), self.where)


def open_package(content: bytes, where: str) -> Package:
    """The document, refused when it would unpack to more than it may."""
    try:
        archive = zipfile.ZipFile(io.BytesIO(content))
    except (zipfile.BadZipFile, ValueError, NotImplementedError, EOFError, OSError) as problem:
        allowed = "It may have been cut off on its way. Ask for it again, or save it again from a word processor"
        raise CannotRead(where, 0, "it is damaged: it cannot be unpacked", allowed) from problem
    parts = archive.infolist()
    sizes = [part.file_size for part in parts]
    swollen = any(part.file_size > _MB and part.file_size > _MOST_TIMES * max(1, part.compress_size) for part in parts)
    if len(parts) > MOST_PARTS or sum(sizes) > MOST_OF_ALL or swollen:
        raise _too_large(where)
    if any(part.flag_bits & 1 for part in parts):
        raise locked(where)
    return Package(where, archive)


def tree_of(content: bytes, where: str) -> Element:
    """XML without a document type, entities or anything from outside, and no deeper than a document is."""
    try:
        root: Element = defusedxml.ElementTree.fromstring(content, forbid_dtd=True)
    except DefusedXmlException as problem:
        found = "it declares a document type or entities, which can fetch or swell what is not in the file"
        raise CannotRead(where, 0, found, "Open it in a word processor and save it again") from problem
    except (ParseError, ValueError, LookupError) as problem:
        line = problem.position[0] if isinstance(problem, ParseError) else 0
        allowed = "Open it in the program it came from and save it again"
        raise CannotRead(where, line, "its XML is broken", allowed) from problem
    level, depth = [root], 0
    while level:
        level, depth = [child for element in level for child in element], depth + 1
        if depth > DEEPEST:
            allowed = "Copy its text into a new document and send that"
            raise CannotRead(where, 0, f"its XML is nested more than {DEEPEST} deep", allowed)
    return root


def locked(where: str) -> CannotRead:
    """The refusal of what only a password opens."""
    allowed = "Open it with its password in a word processor, save it without one, and send that"
    return CannotRead(where, 0, "it is locked with a password", allowed)


def _too_large(where: str) -> CannotRead:
    found = f"it unpacks to more than a transcript has ({MOST_OF_ONE // _MB} MB for one part)"
    return CannotRead(where, 0, found, "Copy its text into a new document and send that")
