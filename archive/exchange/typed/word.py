"""Word documents (.docx, ECMA-376 part 1, section 17): paragraphs, tables, and all that stands around them.

Read from the XML itself: what a tracked change added, a content control holds or a text box says is words too, and
what was struck out, noted or printed on every page is told. Nothing in the file is run.
"""

from __future__ import annotations

import posixpath
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from archive.errors import CannotRead
from archive.exchange.typed.model import Raw
from archive.exchange.typed.package import Package
from archive.exchange.typed.runs import Gathered, Runs

_RELATION = "{http://schemas.openxmlformats.org/package/2006/relationships}Relationship"
_ASIDE = {
    "header": ("the head of the pages", "it stands in the head of every page"),
    "footer": ("the foot of the pages", "it stands in the foot of every page"),
    "footnotes": ("the footnotes", "it is a footnote"),
    "endnotes": ("the endnotes", "it is an endnote"),
    "comments": ("the comments", "it is a comment in the margin"),
}
STRUCK, HIDDEN, BOXED = "it was struck out (a tracked change)", "it is hidden text", "it stands in a text box"
_BREAKS = {"tab": "\t", "br": "\n", "cr": "\n", "noBreakHyphen": "-", "ptab": "\t"}


@dataclass(frozen=True)
class _Look:
    """Which styles are bold."""

    bold: frozenset[str]

    def is_bold(self, run: Element, paragraph_style: str) -> bool:
        """Whether a run is bold: by itself, else by its style, else by its paragraph's."""
        properties = _child(run, "rPr")
        own = None if properties is None else _child(properties, "b")
        if own is not None:
            return _is_on(own)
        return _style(properties, "rStyle") in self.bold or paragraph_style in self.bold


def read_word(package: Package) -> Raw:
    """The paragraphs and rows of a document, and what stands around them."""
    main = _main_part(package)
    body = _child(package.tree(main), "body")
    if body is None:
        raise CannotRead(package.where, 0, "it holds no text", "Save it again as a Word document (.docx)")
    styles = posixpath.join(posixpath.dirname(main), "styles.xml")
    look = _Look(_bold_styles(package.tree(styles)) if styles in package.names else frozenset())
    gathered = Gathered()
    _walk(body, gathered, look)
    for name in sorted(package.names):
        kind = posixpath.basename(name).removesuffix(".xml").rstrip("0123456789")
        if kind in _ASIDE and posixpath.dirname(name) == posixpath.dirname(main):
            _read_aside(package.tree(name), gathered, look, *_ASIDE[kind])
    told = ("The file holds macros. They were not run and are not read.",) if _has_macros(package) else ()
    return Raw("docx", tuple(gathered.blocks), tuple(dict.fromkeys(gathered.out)), told)


def _main_part(package: Package) -> str:
    if "_rels/.rels" in package.names:
        for relation in package.tree("_rels/.rels").iter(_RELATION):
            target = relation.get("Target", "").lstrip("/")
            if relation.get("Type", "").endswith("/officeDocument") and target in package.names:
                return target
    if "word/document.xml" in package.names:
        return "word/document.xml"
    raise CannotRead(package.where, 0, "it is no Word document", "Save it from a word processor as .docx")


def _has_macros(package: Package) -> bool:
    return any(name.lower().endswith("vbaproject.bin") for name in package.names)


def _read_aside(root: Element, gathered: Gathered, look: _Look, where: str, why: str) -> None:
    inner = Gathered()
    _walk(root, inner, look)
    for block in inner.blocks:
        gathered.aside(where, block.words, why)
    gathered.out += inner.out


def _walk(element: Element, gathered: Gathered, look: _Look) -> None:
    """Every paragraph and table below an element, in order."""
    for child in element:
        name = _name(child)
        if name == "p":
            gathered.paragraph(_runs_of(child, gathered, look))
        elif name == "tbl":
            for row in _below(child, "tr"):
                gathered.row([_text_of(cell, gathered, look) for cell in _below(row, "tc")])
        elif name == "AlternateContent":
            _walk(_choice(child), gathered, look)
        elif name in ("del", "moveFrom"):
            gathered.aside("the text", _bare(child), STRUCK)
        else:
            _walk(child, gathered, look)


def _text_of(cell: Element, gathered: Gathered, look: _Look) -> str:
    """The words of a cell; a table inside it row by row."""
    inner = Gathered()
    _walk(cell, inner, look)
    gathered.out += inner.out
    return "\n".join(block.words for block in inner.blocks)


def _runs_of(paragraph: Element, gathered: Gathered, look: _Look) -> Runs:
    runs = Runs()
    properties = _child(paragraph, "pPr")
    _gather(paragraph, runs, gathered, look, _style(properties, "pStyle"))
    return runs


def _gather(element: Element, runs: Runs, gathered: Gathered, look: _Look, style: str) -> None:
    for child in element:
        name = _name(child)
        if name == "r":
            _run(child, runs, gathered, look, style)
        elif name in ("del", "moveFrom"):
            gathered.aside(f"paragraph {gathered.paragraphs + 1}", _bare(child), STRUCK)
        elif name == "AlternateContent":
            _gather(_choice(child), runs, gathered, look, style)
        elif name == "t":
            runs.add(child.text or "", False)
        elif name not in ("pPr", "rPr"):
            _gather(child, runs, gathered, look, style)


def _run(run: Element, runs: Runs, gathered: Gathered, look: _Look, style: str) -> None:
    properties = _child(run, "rPr")
    hidden = None if properties is None else _child(properties, "vanish")
    where = f"paragraph {gathered.paragraphs + 1}"
    if hidden is not None and _is_on(hidden):
        gathered.aside(where, _bare(run), HIDDEN)
        return
    bold = look.is_bold(run, style)
    for child in run:
        name = _name(child)
        if name == "t":
            runs.add((child.text or "").replace("\n", " "), bold)
        elif name in _BREAKS:
            runs.add(_BREAKS[name], bold)
        elif name == "delText":
            gathered.aside(where, child.text or "", STRUCK)
        elif name in ("drawing", "pict", "object", "AlternateContent"):
            _boxes(child, gathered, where)


def _boxes(element: Element, gathered: Gathered, where: str) -> None:
    """The words of text boxes; of two ways to draw the same box, the first."""
    if _name(element) == "AlternateContent":
        element = _choice(element)
    if _name(element) == "txbxContent":
        gathered.aside(where, _bare(element), BOXED)
        return
    for child in element:
        _boxes(child, gathered, where)


def _choice(alternatives: Element) -> Element:
    """Of content that is there in two ways, the first that a reader may take."""
    return next(iter(alternatives), alternatives) if len(alternatives) else alternatives


def _bare(element: Element) -> str:
    """The words below an element, a space between paragraphs."""
    return "".join(
        each.text or "" if _name(each) in ("t", "delText") else " "
        for each in element.iter()
        if _name(each) in ("t", "delText", "p", "tab", "br", "cr")
    )


def _bold_styles(styles: Element) -> frozenset[str]:
    """The styles that are bold, by themselves or by the one they are based on."""
    own: dict[str, tuple[bool | None, str]] = {}
    for style in _below(styles, "style"):
        properties = _child(style, "rPr")
        mark = None if properties is None else _child(properties, "b")
        based = _child(style, "basedOn")
        own[_attribute(style, "styleId")] = (
            None if mark is None else _is_on(mark),
            "" if based is None else _attribute(based, "val"),
        )
    return frozenset(name for name in own if _is_bold(name, own))


def _is_bold(name: str, own: dict[str, tuple[bool | None, str]]) -> bool:
    for _step in range(len(own)):
        bold, name = own.get(name, (False, ""))
        if bold is not None:
            return bold
    return False


def _style(properties: Element | None, kind: str) -> str:
    named = None if properties is None else _child(properties, kind)
    return "" if named is None else _attribute(named, "val")


def _is_on(mark: Element) -> bool:
    return _attribute(mark, "val") not in ("0", "false", "off", "none")


def _below(element: Element, name: str) -> Iterator[Element]:
    """Elements of a name under another, past wrappers but not inside one of the same name."""
    for child in element:
        if _name(child) == name:
            yield child
        elif _name(child) not in ("tbl", "p"):
            yield from _below(child, name)


def _child(element: Element, name: str) -> Element | None:
    return next((child for child in element if _name(child) == name), None)


def _attribute(element: Element, name: str) -> str:
    return next((value for key, value in element.attrib.items() if key.rpartition("}")[2] == name), "")


def _name(element: Element) -> str:
    """The local name: the strict and the transitional form have different namespaces."""
    return element.tag.rpartition("}")[2]
