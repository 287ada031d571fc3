"""Which format a typed transcript is in, by what it holds; and its raw blocks, or why it cannot be read."""

from __future__ import annotations

from collections.abc import Callable

from archive.errors import CannotRead, Fault, Unacceptable
from archive.exchange.faults import FaultList
from archive.exchange.typed.csv_rows import read_csv
from archive.exchange.typed.model import Block, LeftOut, Raw
from archive.exchange.typed.opendocument import read_opendocument
from archive.exchange.typed.package import locked, open_package, tree_of
from archive.exchange.typed.plain import decoded, read_plain
from archive.exchange.typed.ttml import read_ttml
from archive.exchange.typed.word import read_word
from archive.exchange.webvtt import ARROW, parse_webvtt

LARGEST_BYTES = 20 << 20
MOST_BLOCKS = 20_000
FORMS = {
    "docx": "Word document",
    "odt": "OpenDocument text",
    "vtt": "WebVTT captions",
    "ttml": "TTML timed text",
    "csv": "table (CSV)",
    "text": "typed text",
}
_SEND = "Send a transcript as .docx, .odt, .vtt, .ttml, .csv or plain text"
_XML_NAMES = ("ttml", "xml", "dfxp", "itt", "imsc")
_COMPOUND = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
# What is often sent and cannot be read here: how it begins, what it is, what to do.
_OTHERS = (
    (b"{\\rtf", "it is rich text (.rtf)", "Open it in a word processor and save it as .docx or .odt"),
    (b"%PDF", "it is a PDF", "Send the document it was made from; or copy its text into a text file"),
    (b"RIFF", "it is sound", "Take sound in as a recording; here is the place of its words"),
    (b"ID3", "it is sound", "Take sound in as a recording; here is the place of its words"),
)


def read_typed(content: bytes, name: str) -> Raw:
    """The blocks of a typed transcript; CannotRead says in words what is wrong and what to do."""
    if not content.strip():
        raise CannotRead(name, 0, "it is empty", _SEND)
    if len(content) > LARGEST_BYTES:
        raise CannotRead(name, 0, f"it is larger than {LARGEST_BYTES >> 20} MB", "Send it without its pictures")
    _refuse_others(content, name)
    raw = _packed(content, name) if content.startswith(b"PK") else _text(content, name)
    if len(raw.blocks) > MOST_BLOCKS:
        raise CannotRead(name, 0, f"it has {len(raw.blocks)} paragraphs", f"A transcript has {MOST_BLOCKS} at most")
    if not any(block.words.strip() for block in raw.blocks):
        raise CannotRead(name, 0, "it holds no words", _SEND)
    return raw


def _refuse_others(content: bytes, name: str) -> None:
    if content.startswith(_COMPOUND):
        if _ENCRYPTED in content:
            raise locked(name)
        allowed = "Open it in a word processor and save it as .docx or .odt"
        raise CannotRead(name, 0, "it is a document of the old Word (.doc)", allowed)
    for start, found, allowed in _OTHERS:
        if content.startswith(start):
            raise CannotRead(name, 0, found, allowed)


def _packed(content: bytes, name: str) -> Raw:
    package = open_package(content, name)
    if "content.xml" in package.names:
        return read_opendocument(package)
    if any(part.startswith("word/") for part in package.names) or "_rels/.rels" in package.names:
        return read_word(package)
    raise CannotRead(name, 0, "it is packed, and no text document", _SEND)


def _text(content: bytes, name: str) -> Raw:
    start = content[:400].lstrip(b"\xef\xbb\xbf \t\r\n")
    form = name.lower().rpartition(".")[2]
    if start.lower().startswith((b"<html", b"<!doctype html")):
        raise CannotRead(name, 0, "it is a web page", "Copy its text into a text file and send that")
    if start.startswith((b"<?xml", b"<!DOCTYPE", b"<tt")) or form in _XML_NAMES:
        return read_ttml(tree_of(content, name), name)
    text, told = decoded(content, name)
    readers: dict[str, Callable[[], Raw]] = {
        "vtt": lambda: _webvtt(text, name, told),
        "csv": lambda: read_csv(text, name, told),
        "tsv": lambda: read_csv(text, name, told),
    }
    key = "vtt" if text.lstrip("\ufeff").startswith("WEBVTT") else form
    return readers[key]() if key in readers else read_plain(text, told)


def _webvtt(text: str, name: str, told: tuple[str, ...]) -> Raw:
    faults = FaultList()
    cues = parse_webvtt(text, name, faults)
    if faults.faults:
        allowed = [Fault(fault.where, fault.line, fault.found, fault.allowed) for fault in faults.faults]
        raise Unacceptable(allowed, name)
    blocks = [Block(f"line {cue.line}", cue.text, 0, (), cue.start_ms, cue.end_ms, cue.speaker) for cue in cues]
    return Raw("vtt", tuple(blocks), tuple(_around_cues(text)), told)


def _around_cues(text: str) -> list[LeftOut]:
    """Remarks, styles, the words after WEBVTT, and the names of cues."""
    out: list[LeftOut] = []
    number = 1
    for place, block in enumerate(text.removeprefix("\ufeff").split("\n\n")):
        lines = block.strip("\n").split("\n")
        where = f"line {number + len(block) - len(block.lstrip(chr(10)))}"
        if place == 0:
            out.append(LeftOut(where, "\n".join(lines).removeprefix("WEBVTT"), "it stands at the head of the file"))
        elif lines[0].split(" ")[0].split("\t")[0] in ("NOTE", "STYLE", "REGION"):
            out.append(LeftOut(where, "\n".join(lines), "it is a remark or a style, not said"))
        elif len(lines) > 1 and ARROW in lines[1]:
            out.append(LeftOut(where, lines[0], "it is the number or name of a caption"))
        number += block.count("\n") + 2
    return [LeftOut(each.where, " ".join(each.text.split()), each.why) for each in out if each.text.strip()]
