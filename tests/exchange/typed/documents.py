"""Documents made for tests: Word by python-docx, OpenDocument by odfdo, archives and hostile files by hand."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping, Sequence

import docx
import odfdo

Turn = tuple[str, str]


def word(turns: Sequence[Turn], *, header: str = "", footer: str = "", front: Sequence[str] = ()) -> bytes:
    """A Word document in which names are bold."""
    document = docx.Document()
    document.sections[0].header.paragraphs[0].text = header
    document.sections[0].footer.paragraphs[0].text = footer
    for text in front:
        document.add_heading(text, 1)
    for name, words in turns:
        paragraph = document.add_paragraph()
        paragraph.add_run(name).bold = True
        paragraph.add_run(f" {words}")
    return saved(document)


def word_table(rows: Sequence[Sequence[str]]) -> bytes:
    """A Word document that is one table."""
    document = docx.Document()
    table = document.add_table(0, len(rows[0]))
    for row in rows:
        for cell, text in zip(table.add_row().cells, row, strict=True):
            cell.text = text
    return saved(document)


def word_body(body: str, **parts: str) -> bytes:
    """A Word document whose body is given as XML."""
    namespace = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"'
    files = {"word/document.xml": f"<w:document {namespace}><w:body>{body}</w:body></w:document>"}
    files |= {f"word/{name}.xml": text.replace("NS", namespace) for name, text in parts.items()}
    return packed(files)


def saved(document: docx.document.Document) -> bytes:
    """The bytes of a Word document."""
    file = io.BytesIO()
    document.save(file)
    return file.getvalue()


def open_document(turns: Sequence[Turn]) -> bytes:
    """An OpenDocument text in which names are bold."""
    document = odfdo.Document("text")
    document.body.clear()
    bold = odfdo.Style("text", name="heavy", bold=True)
    document.insert_style(bold, automatic=True)
    for name, words in turns:
        paragraph = odfdo.Paragraph("")
        paragraph.append(odfdo.Span(name, style="heavy"))
        paragraph.append(f" {words}")
        document.body.append(paragraph)
    file = io.BytesIO()
    document.save(file)
    return file.getvalue()


def open_body(body: str, *, styles: str = "", manifest: str = "") -> bytes:
    """An OpenDocument text whose body, styles and manifest are given as XML."""
    names = " ".join(
        f'xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{uri}:1.0"'
        for name, uri in (("office", "office"), ("text", "text"), ("table", "table"), ("style", "style"),
                          ("fo", "xsl-fo-compatible"), ("draw", "drawing"), ("manifest", "manifest"))
    )  # fmt: skip
    files = {
        "mimetype": "application/vnd.oasis.opendocument.text",
        "content.xml": f"<office:document-content {names}>{styles}<office:body><office:text>{body}</office:text>"
        "</office:body></office:document-content>",
    }
    if manifest:
        files["META-INF/manifest.xml"] = f"<manifest:manifest {names}>{manifest}</manifest:manifest>"
    return packed(files)


def packed(files: Mapping[str, str | bytes]) -> bytes:
    """A zip archive."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return file.getvalue()
