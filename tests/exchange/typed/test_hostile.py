"""Files that mean harm or are broken are refused with a clear word: what is wrong, and what to do."""

from __future__ import annotations

import io
import zipfile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive.errors import CannotRead, Unacceptable
from archive.exchange.typed.reading import read_typed
from tests.exchange.typed.documents import open_body, packed, word, word_body

_ENTITY = '<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]><x>&a;</x>'
_SWELL = '<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;">]><x>&b;</x>'
_DEEP = "<w:p>" * 5_000 + "</w:p>" * 5_000


def encrypted() -> bytes:
    """An archive whose one part says that it is encrypted."""
    content = bytearray(packed({"word/document.xml": "<x/>"}))
    for start in (content.find(b"PK\x03\x04") + 6, content.find(b"PK\x01\x02") + 8):
        content[start] |= 1
    return bytes(content)


@pytest.mark.parametrize(
    ("content", "name", "told"),
    [
        (b"  \n", "a.txt", "it is empty"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "a.doc", "old Word.*save it as .docx"),
        (
            b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le"),
            "a.docx",
            "locked with a password",
        ),
        (encrypted(), "a.docx", "locked with a password"),
        (b"{\\rtf1 words}", "a.rtf", "rich text"),
        (b"%PDF-1.7", "a.docx", "it is a PDF"),
        (b"RIFF0000WAVE", "a.txt", "it is sound"),
        (b"words \x00\x01 and more", "a.txt", "it is no text"),
        (b"\xff\xfeA", "a.txt", "UTF-16"),
        (b"<html><p>Hello</p></html>", "a.txt", "web page"),
        (b"PK\x03\x04", "a.docx", "damaged"),
        (packed({"picture.bin": b"1"}), "a.zip", "no text document"),
        (packed({"word/document.xml": "<w:document"}), "a.docx", "XML is broken"),
        (packed({"word/document.xml": _ENTITY}), "a.docx", "document type or entities"),
        (packed({"word/document.xml": _SWELL}), "a.docx", "document type or entities"),
        (packed({"content.xml": _ENTITY}), "a.odt", "document type or entities"),
        (packed({"content.xml": "<x/>"}), "a.odt", "no text document"),
        (word_body(_DEEP), "a.docx", "nested"),
        (word_body(""), "a.docx", "it holds no words"),
        (open_body(""), "a.odt", "it holds no words"),
        (_ENTITY.encode(), "a.ttml", "document type or entities"),
        (b"<x/>", "a.ttml", "no timed text"),
        (
            b'<tt xmlns="http://www.w3.org/ns/ttml"><body><p begin="soon">x</p></body></tt>',
            "a.ttml",
            "'soon' is not a time",
        ),
        (b'a,b\n"x', "a.csv", "quotes in this row"),
        (b"x" * ((20 << 20) + 1), "a.txt", "larger than 20 MB"),
        (b"a\n" * 20_001, "a.txt", "20001 paragraphs"),
    ],
)
def test_it_is_refused_in_words(content: bytes, name: str, told: str) -> None:
    """One fault, with the file's name."""
    with pytest.raises(CannotRead, match=told) as refused:
        read_typed(content, name)
    assert refused.value.faults[0].where == name
    assert refused.value.faults[0].allowed


def test_what_swells_is_refused_before_it_is_unpacked() -> None:
    """A part of a hundred million blanks, that is packed into little."""
    with pytest.raises(CannotRead, match="unpacks to more"):
        read_typed(packed({"word/document.xml": b" " * 100_000_000}), "a.docx")


def test_a_part_that_lies_about_its_size_is_refused() -> None:
    """The bytes are counted while they are unpacked, whatever the archive says of them."""
    content = bytearray(packed({"word/document.xml": b" " * (40 << 20)}))
    at = content.find(b"PK\x01\x02")
    content[at + 24 : at + 28] = (1000).to_bytes(4, "little")
    with pytest.raises(CannotRead):
        read_typed(bytes(content), "a.docx")


def test_thousands_of_parts_are_refused() -> None:
    """No document has so many."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for number in range(5_001):
            archive.writestr(f"{number}", b"")
    with pytest.raises(CannotRead, match="unpacks to more"):
        read_typed(file.getvalue(), "a.docx")


def read_or_refused(content: bytes, name: str) -> bool:
    """Whether a file gives blocks, or faults in words; anything else is raised."""
    try:
        return bool(read_typed(content, name).blocks)
    except Unacceptable as refused:
        return bool(refused.faults)


_WHOLE = word([("Ada:", "I was put on a press."), ("Ned:", "When?")])


@settings(max_examples=60, deadline=None)
@given(at=st.integers(0, len(_WHOLE) - 1), byte=st.integers(0, 255), cut=st.booleans())
def test_a_document_damaged_anywhere_is_read_or_refused(at: int, byte: int, cut: bool) -> None:
    """One byte changed, or all after it gone: never anything but a transcript or a refusal in words."""
    damaged = _WHOLE[:at] if cut else _WHOLE[:at] + bytes([byte]) + _WHOLE[at + 1 :]
    assert read_or_refused(damaged, "a.docx")


@settings(max_examples=100, deadline=None)
@given(content=st.binary(max_size=200), name=st.sampled_from(["a.txt", "a.vtt", "a.csv", "a.ttml", "a.docx"]))
def test_any_bytes_are_read_or_refused(content: bytes, name: str) -> None:
    """Under any name."""
    assert read_or_refused(content, name)
