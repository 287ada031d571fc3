"""Long paragraphs cut at the ends of sentences, so that a line is as long as somebody can listen to. Pure."""

from __future__ import annotations

import re

MOST_WORDS = 60
MOST_LETTERS = 4_000
_END = re.compile(r"(?<=[.?!…])[\"'”’)\]]*\s+(?=[\"'“‘(\[]?[^\W_a-z])")


def in_pieces(text: str) -> list[str]:
    """The text in pieces of about 60 words, each on one line; a sentence is cut only when it is far too long."""
    sentences = [sentence for sentence in _sentences(" ".join(text.split())) if sentence]
    pieces: list[str] = []
    for sentence in sentences:
        joined = f"{pieces[-1]} {sentence}" if pieces else sentence
        if pieces and len(joined.split()) <= MOST_WORDS and len(joined) <= MOST_LETTERS:
            pieces[-1] = joined
        else:
            pieces.append(sentence)
    return pieces


def _sentences(text: str) -> list[str]:
    if len(text.split()) <= MOST_WORDS and len(text) <= MOST_LETTERS:
        return [text]
    found, at = [], 0
    for end in _END.finditer(text):
        found.append(text[at : end.end()].strip())
        at = end.end()
    return [part for sentence in (*found, text[at:].strip()) for part in _short(sentence)]


def _short(sentence: str) -> list[str]:
    """A sentence that nobody ended, in parts that can be kept."""
    if len(sentence) <= MOST_LETTERS:
        return [sentence]
    parts, part = [], ""
    for word in sentence.split(" "):
        for at in range(0, len(word), MOST_LETTERS):
            more = word[at : at + MOST_LETTERS]
            if part and len(part) + 1 + len(more) > MOST_LETTERS:
                parts.append(part)
                part = more
            else:
                part = f"{part} {more}".strip()
    return [*parts, part]
