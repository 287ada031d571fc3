"""Records' prose (paragraphs, lists, emphasis) as safe HTML: raw HTML, links and pictures are plain text here."""

from __future__ import annotations

from functools import lru_cache

from markdown_it import MarkdownIt

_MARKS = MarkdownIt("zero").enable(["emphasis", "list", "newline", "escape"])


@lru_cache(maxsize=2048)
def prose(text: str) -> str:
    """The HTML of a stretch of prose; every mark beyond lists and emphasis is shown as written."""
    return str(_MARKS.render(text))
