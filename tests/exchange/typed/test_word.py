"""Word documents: names in bold and in tables, and all that stands around the words, told and never lost."""

from __future__ import annotations

import io

import docx
from docx.enum.text import WD_BREAK

from archive.exchange.typed.model import Options, Way
from tests.exchange.typed.documents import saved, word, word_body, word_table
from tests.exchange.typed.reading import out, said, understood

TURNS = [("Ada:", "I was put on a press."), ("Ned", "When?"), ("Ada:", "In 1952."), ("Ned", "Yes.")]


def test_names_in_bold_are_speakers() -> None:
    """With a colon or without."""
    found = understood(word(TURNS), "talk.docx")
    assert found.way is Way.BOLD
    assert said(found) == [("Ada", "I was put on a press."), ("Ned", "When?"), ("Ada", "In 1952."), ("Ned", "Yes.")]


def test_whoever_stands_in_bold_before_a_colon_speaks() -> None:
    """Even once, and under no name."""
    found = understood(word([*TURNS, ("Somebody at the door:", "Tea.")]), "talk.docx")
    assert said(found)[-1] == ("Somebody at the door", "Tea.")


def test_a_style_that_is_bold_counts_and_one_taken_back_does_not() -> None:
    """Bold may come from a run's style or its paragraph's; a run that says otherwise is not bold."""
    document = docx.Document()
    for name, words in TURNS:
        paragraph = document.add_paragraph()
        paragraph.add_run(name.rstrip(":"), style="Strong")
        paragraph.add_run(f" {words}")
    heavy = document.add_paragraph(style="Heading 1")
    heavy.add_run("Ada ")
    heavy.add_run("I was.").bold = False
    assert said(understood(saved(document), "talk.docx"))[-1] == ("Ada", "I was.")


def test_head_foot_and_front_are_left_out_with_the_reason() -> None:
    """What stands on every page, and what stands before the first speaker."""
    found = understood(word(TURNS, header="Works archive", footer="Page 1", front=["A talk with Ada"]), "talk.docx")
    assert ("Works archive", "it stands in the head of every page") in out(found)
    assert ("Page 1", "it stands in the foot of every page") in out(found)
    assert ("A talk with Ada", "before the first speaker or time") in out(found)


def test_a_line_broken_inside_a_paragraph_is_two_lines() -> None:
    """Typists often break lines instead of beginning paragraphs."""
    document = docx.Document()
    run = document.add_paragraph().add_run("ADA: Yes.")
    run.add_break(WD_BREAK.LINE)
    run.add_text("NED: No.")
    assert said(understood(saved(document), "talk.docx")) == [("ADA", "Yes."), ("NED", "No.")]


def test_a_table_gives_time_speaker_and_words() -> None:
    """With a head in words of the trade; the head is left out."""
    rows = [("Time", "Who", "Words"), ("0:05", "Ada", "I was put on a press."), ("0:09", "Ned", "When was that?")]
    found = understood(word_table(rows), "talk.docx")
    assert [(line.start_ms, line.speaker, line.text) for line in found.lines] == [
        (5_000, "Ada", "I was put on a press."),
        (9_000, "Ned", "When was that?"),
    ]
    assert out(found) == [("Time | Who | Words", "the head of the table")]


def test_a_table_without_a_head_is_told_by_its_looks_or_by_the_keeper() -> None:
    """Names that come again and the longest column; a column may be asked for."""
    rows = [("Ada", "I was put on a press."), ("Ned", "When was that, then?"), ("Ada", "In 1952, I think it was.")]
    assert [speaker for speaker, _ in said(understood(word_table(rows), "talk.docx"))] == ["Ada", "Ned", "Ada"]
    other = understood(word_table(rows), "talk.docx", Options(columns={"speaker": 1, "text": 0}))
    assert said(other)[0] == ("I was put on a press.", "Ada")


def test_tracked_changes_hidden_text_and_boxes_are_told() -> None:
    """What was added is said; what was struck out, hidden or boxed is left out, each with its reason."""
    body = (
        "<w:p><w:r><w:t>ADA: I </w:t></w:r><w:ins><w:r><w:t>was </w:t></w:r></w:ins>"
        "<w:del><w:r><w:delText>were </w:delText></w:r></w:del><w:r><w:t>there.</w:t></w:r>"
        "<w:r><w:rPr><w:vanish/></w:rPr><w:t>secret</w:t></w:r>"
        "<w:r><w:pict><w:txbxContent><w:p><w:r><w:t>boxed</w:t></w:r></w:p></w:txbxContent></w:pict></w:r></w:p>"
        "<w:sdt><w:sdtContent><w:p><w:r><w:t>NED: Held in a field.</w:t></w:r></w:p></w:sdtContent></w:sdt>"
    )
    notes = "<w:footnotes NS><w:footnote><w:p><w:r><w:t>See below</w:t></w:r></w:p></w:footnote></w:footnotes>"
    found = understood(word_body(body, footnotes=notes), "talk.docx")
    assert said(found) == [("ADA", "I was there."), ("NED", "Held in a field.")]
    assert set(out(found)) == {
        ("were", "it was struck out (a tracked change)"),
        ("secret", "it is hidden text"),
        ("boxed", "it stands in a text box"),
        ("See below", "it is a footnote"),
    }


def test_words_are_those_that_another_reader_finds() -> None:
    """On a plain document, paragraph by paragraph, python-docx reads the same."""
    content = word(TURNS)
    other = [paragraph.text for paragraph in docx.Document(io.BytesIO(content)).paragraphs]
    ours = [f"{line.speaker} {line.text}" for line in understood(content, "talk.docx").lines]
    assert ours == [text.replace(":", "", 1) if text.startswith("Ada:") else text for text in other]
