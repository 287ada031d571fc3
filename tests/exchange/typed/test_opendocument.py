"""OpenDocument text: names in bold and in tables, and all that stands around the words."""

from __future__ import annotations

import pytest

from archive.errors import CannotRead
from archive.exchange.typed.model import Way
from tests.exchange.typed.documents import open_body, open_document
from tests.exchange.typed.reading import out, said, understood

TURNS = [("Ada:", "I was put on a press."), ("Ned:", "When?"), ("Ada:", "In 1952.")]


def test_one_that_is_locked_is_told_what_to_do() -> None:
    """Its manifest says that it is encrypted."""
    manifest = "<manifest:file-entry><manifest:encryption-data/></manifest:file-entry>"
    with pytest.raises(CannotRead, match="locked with a password.*save it without one"):
        understood(open_body("<text:p>x</text:p>", manifest=manifest), "talk.odt")


def test_names_in_bold_are_speakers() -> None:
    """As another program writes them."""
    found = understood(open_document(TURNS), "talk.odt")
    assert found.way is Way.BOLD
    assert said(found) == [("Ada", "I was put on a press."), ("Ned", "When?"), ("Ada", "In 1952.")]


def test_white_space_tables_and_breaks() -> None:
    """Spaces that are counted, line breaks, and the rows of a table in a group."""
    body = (
        "<text:p>ADA: I<text:s text:c='3'/>was\nthere.<text:line-break/>NED: No.</text:p>"
        "<table:table><table:table-header-rows><table:table-row><table:table-cell><text:p>0:05</text:p>"
        "</table:table-cell><table:table-cell><text:p>Ada says yes.</text:p></table:table-cell></table:table-row>"
        "</table:table-header-rows></table:table>"
    )
    assert said(understood(open_body(body), "talk.odt")) == [
        ("ADA", "I was there."),
        ("NED", "No."),
        ("NED", "Ada says yes."),
    ]


def test_notes_comments_and_struck_out_words_are_told() -> None:
    """Each with its reason."""
    body = (
        "<text:tracked-changes><text:changed-region><text:deletion><office:change-info/><text:p>gone</text:p>"
        "</text:deletion></text:changed-region></text:tracked-changes>"
        "<text:p>ADA: Yes.<text:note><text:note-body><text:p>A note</text:p></text:note-body></text:note>"
        "<office:annotation><text:p>A remark</text:p></office:annotation></text:p>"
    )
    found = understood(open_body(body), "talk.odt")
    assert said(found) == [("ADA", "Yes.")]
    assert set(out(found)) == {
        ("gone", "it was struck out (a tracked change)"),
        ("A note", "it is a footnote"),
        ("A remark", "it is a comment in the margin"),
    }
