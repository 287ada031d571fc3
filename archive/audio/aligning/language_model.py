"""Which words follow which in a text, as the decoder reads it (ARPA): three words at most, with ways back to fewer."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Sequence
from pathlib import Path

# The share of likelihood that is kept for what the text does not say in this order.
_SPARED = 0.4
_START, _END = "<s>", "</s>"
_NEVER = -99.0
_TOP = 0.999

Gram = tuple[str, ...]


def write_language_model(lines: Sequence[Sequence[str]], place: Path) -> None:
    """Write the model of a text: its lines in order, each of which may also be the first or the last that is heard."""
    orders = _likelihoods(_counts([line for line in lines if line]))
    rows = ["\\data\\", *(f"ngram {n}={len(grams)}" for n, grams in enumerate(orders, 1))]
    for n, grams in enumerate(orders, 1):
        back = _ways_back(grams, orders[n]) if n < len(orders) else {}
        rows += ["", f"\\{n}-grams:", *(_row(gram, share, back.get(gram)) for gram, share in sorted(grams.items()))]
    place.write_text("\n".join([*rows, "", "\\end\\", ""]), "utf-8")


def _counts(lines: Sequence[Sequence[str]]) -> list[Counter[Gram]]:
    """How often one, two and three words stand together: through the ends of lines, and at their starts and ends."""
    stream = [word for line in lines for word in line]
    counts: list[Counter[Gram]] = [Counter(zip(*(stream[at:] for at in range(n)), strict=False)) for n in (1, 2, 3)]
    for line in lines:
        closed = [_START, *line, _END]
        counts[0].update([(_START,), (_END,)])
        for n in (2, 3):
            grams = list(zip(*(closed[at:] for at in range(n)), strict=False))
            counts[n - 1].update(gram for gram in grams if gram[0] == _START or gram[-1] == _END)
    return counts


def _likelihoods(counts: Sequence[Counter[Gram]]) -> list[dict[Gram, float]]:
    total = sum(count for gram, count in counts[0].items() if gram != (_START,))
    orders = [{gram: count / total for gram, count in counts[0].items() if gram != (_START,)}]
    orders[0][(_START,)] = 0.0
    for grams in counts[1:]:
        follow: Counter[Gram] = Counter()
        for gram, count in grams.items():
            follow[gram[:-1]] += count
        orders.append({gram: (1 - _SPARED) * count / follow[gram[:-1]] for gram, count in grams.items()})
    return orders


def _ways_back(shorter: dict[Gram, float], longer: dict[Gram, float]) -> dict[Gram, float]:
    """By how much the shorter likelihoods count after each gram, so that all of them together come to one."""
    told: defaultdict[Gram, float] = defaultdict(float)
    for gram in longer:
        told[gram[:-1]] += shorter.get(gram[1:], 0.0)
    return {gram: _SPARED / (1 - min(told[gram], _TOP)) if gram in told else 1.0 for gram in shorter}


def _row(gram: Gram, share: float, back: float | None) -> str:
    likely = math.log10(share) if share > 0 else _NEVER
    return f"{likely:.4f} {' '.join(gram)}" + ("" if back is None else f" {math.log10(back):.4f}")
