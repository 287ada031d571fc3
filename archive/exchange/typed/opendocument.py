"""OpenDocument text (.odt, OASIS OpenDocument 1.3 part 3): paragraphs, tables, and all that stands around them."""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from archive.errors import CannotRead
from archive.exchange.typed.model import Raw
from archive.exchange.typed.package import Package, locked
from archive.exchange.typed.runs import Gathered, Runs

_NS = "{urn:oasis:names:tc:opendocument:xmlns:%s:1.0}"
_OFFICE, _TEXT, _TABLE, _STYLE = (_NS % name for name in ("office", "text", "table", "style"))
_FO = "{urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0}"
_LOCKED = "{urn:oasis:names:tc:opendocument:xmlns:manifest:1.0}encryption-data"
HEAD, FOOT, STRUCK = "the head of the pages", "the foot of the pages", "it was struck out (a tracked change)"
_ASIDE = {
    f"{_TEXT}note": "it is a footnote",
    f"{_OFFICE}annotation": "it is a comment in the margin",
    f"{_NS % 'drawing'}text-box": "it stands in a text box",
    f"{_TEXT}table-of-content": "it is the list of contents",
}
_MOST_SPACES = 1_000


def read_opendocument(package: Package) -> Raw:
    """The paragraphs and rows of a document, and what stands around them."""
    manifest = "META-INF/manifest.xml"
    if manifest in package.names and next(package.tree(manifest).iter(_LOCKED), None) is not None:
        raise locked(package.where)
    content = package.tree("content.xml")
    body = content.find(f"{_OFFICE}body/{_OFFICE}text")
    if body is None:
        raise CannotRead(package.where, 0, "it is no text document", "Save it as OpenDocument text (.odt)")
    styles = package.tree("styles.xml") if "styles.xml" in package.names else None
    bold = _bold_styles([content] if styles is None else [content, styles])
    gathered = Gathered()
    _walk(body, gathered, bold)
    if styles is not None:
        _pages(styles, gathered)
    return Raw("odt", tuple(gathered.blocks), tuple(dict.fromkeys(gathered.out)))


def _pages(styles: Element, gathered: Gathered) -> None:
    """What is printed on every page."""
    for name, where in (("header", HEAD), ("footer", FOOT)):
        for kind in (name, f"{name}-left", f"{name}-first"):
            for part in styles.iter(f"{_STYLE}{kind}"):
                gathered.aside(where, _bare(part), f"it stands in {where.replace('the pages', 'every page')}")


def _walk(element: Element, gathered: Gathered, bold: frozenset[str]) -> None:
    for child in element:
        if child.tag in (f"{_TEXT}p", f"{_TEXT}h"):
            runs = Runs()
            _gather(child, runs, gathered, bold, child.get(f"{_TEXT}style-name", "") in bold)
            gathered.paragraph(runs)
        elif child.tag == f"{_TABLE}table":
            for row in _rows(child):
                gathered.row([_text_of(cell, gathered, bold) for cell in row])
        elif child.tag == f"{_TEXT}tracked-changes":
            for deleted in child.iter(f"{_TEXT}deletion"):
                gathered.aside("the text", _bare(deleted, but=f"{_OFFICE}change-info"), STRUCK)
        elif child.tag in _ASIDE:
            gathered.aside("the text", _bare(child), _ASIDE[child.tag])
        else:
            _walk(child, gathered, bold)


def _rows(table: Element) -> Iterator[list[Element]]:
    """The cells of every row, also of rows in groups; a table inside a cell is not looked into here."""
    for child in table:
        if child.tag == f"{_TABLE}table-row":
            yield [cell for cell in child if cell.tag == f"{_TABLE}table-cell"]
        else:
            yield from _rows(child)


def _text_of(cell: Element, gathered: Gathered, bold: frozenset[str]) -> str:
    inner = Gathered()
    _walk(cell, inner, bold)
    gathered.out += inner.out
    return "\n".join(block.words for block in inner.blocks)


def _gather(element: Element, runs: Runs, gathered: Gathered, bold: frozenset[str], heavy: bool) -> None:
    """The words of an element in order; white space counts as the standard has it (part 3, section 6.1.2)."""
    runs.add(_folded(element.text), heavy)
    for child in element:
        if child.tag in _ASIDE:
            gathered.aside(f"paragraph {gathered.paragraphs + 1}", _bare(child), _ASIDE[child.tag])
        elif child.tag == f"{_TEXT}s":
            runs.add(" " * min(_count(child), _MOST_SPACES), heavy)
        elif child.tag == f"{_TEXT}tab":
            runs.add("\t", heavy)
        elif child.tag == f"{_TEXT}line-break":
            runs.add("\n", heavy)
        elif child.tag == f"{_TEXT}span":
            name = child.get(f"{_TEXT}style-name", "")
            _gather(child, runs, gathered, bold, name in bold or (heavy and f"-{name}" not in bold))
        else:
            _gather(child, runs, gathered, bold, heavy)
        runs.add(_folded(child.tail), heavy)


def _folded(text: str | None) -> str:
    return "".join(" " if letter in "\n\r\t" else letter for letter in text or "")


def _count(spaces: Element) -> int:
    text = spaces.get(f"{_TEXT}c", "1")
    return int(text) if text.isascii() and text.isdigit() and len(text) < 6 else 1


def _bare(element: Element, but: str = "") -> str:
    """The words below an element, a space between paragraphs, without those under one tag."""
    parts = [element.text or ""]
    for child in element:
        if child.tag != but:
            parts.append(" " if child.tag.startswith(_TEXT) and child.tag != f"{_TEXT}span" else "")
            parts.append(_bare(child, but))
        parts.append(child.tail or "")
    return "".join(parts)


def _bold_styles(documents: list[Element]) -> frozenset[str]:
    """The styles that are bold by themselves or by their parent; `-name` for those that say they are not."""
    own: dict[str, tuple[str, str]] = {}
    for document in documents:
        for style in document.iter(f"{_STYLE}style"):
            letters = style.find(f"{_STYLE}text-properties")
            weight = "" if letters is None else letters.get(f"{_FO}font-weight", "")
            own.setdefault(style.get(f"{_STYLE}name", ""), (weight, style.get(f"{_STYLE}parent-style-name", "")))
    weights = {name: _weight(name, own) for name in own}
    bold = {name for name, weight in weights.items() if weight in ("bold", "600", "700", "800", "900")}
    return frozenset(bold | {f"-{name}" for name, (weight, _parent) in own.items() if weight and name not in bold})


def _weight(name: str, own: dict[str, tuple[str, str]]) -> str:
    for _step in range(len(own)):
        weight, name = own.get(name, ("normal", ""))
        if weight:
            return weight
    return ""
