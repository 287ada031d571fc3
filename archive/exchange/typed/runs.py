"""Text with bold stretches gathered from a document, and cut into blocks where its lines break."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from archive.exchange.typed.model import Block, LeftOut


@dataclass
class Runs:
    """The words of one paragraph, letter by letter bold or not."""

    parts: list[tuple[str, bool]] = field(default_factory=list)

    def add(self, text: str, bold: bool) -> None:
        """More words at the end."""
        if text:
            self.parts.append((text, bold))

    @property
    def text(self) -> str:
        """All words."""
        return "".join(text for text, _bold in self.parts)

    def blocks(self, where: str) -> Iterator[Block]:
        """A block for each line of it that has words."""
        line: list[tuple[str, bool]] = []
        for text, bold in self.parts:
            first, *more = text.split("\n")
            line.append((first, bold))
            for rest in more:
                yield from _block(line, where)
                line = [(rest, bold)]
        yield from _block(line, where)


def _block(line: list[tuple[str, bool]], where: str) -> Iterator[Block]:
    text = "".join(part for part, _bold in line)
    if not text.strip():
        return
    bold = 0
    for part, heavy in line:
        if not heavy and part.strip():
            break
        bold += len(part)
    has_bold = any(heavy and part.strip() for part, heavy in line)
    yield Block(where, text, bold if has_bold else 0)


@dataclass
class Gathered:
    """What a reader of documents gathers: paragraphs and rows in order, counted together, and what stands aside."""

    blocks: list[Block] = field(default_factory=list)
    out: list[LeftOut] = field(default_factory=list)
    paragraphs: int = 0

    def paragraph(self, runs: Runs) -> None:
        """The next paragraph."""
        self.paragraphs += 1
        self.blocks += runs.blocks(f"paragraph {self.paragraphs}")

    def row(self, cells: list[str]) -> None:
        """The next row of a table; one of a single cell is a paragraph."""
        self.paragraphs += 1
        cells = ["\n".join(part.strip() for part in cell.split("\n") if part.strip()) for cell in cells]
        if len(cells) == 1:
            self.blocks += Runs([(cells[0], False)]).blocks(f"table row {self.paragraphs}")
        elif any(cells):
            self.blocks.append(
                Block(f"table row {self.paragraphs}", cells=tuple(cell.replace("\n", " ") for cell in cells))
            )

    def aside(self, where: str, text: str, why: str) -> None:
        """What is not taken as words."""
        if text.strip():
            self.out.append(LeftOut(where, " ".join(text.split()), why))
