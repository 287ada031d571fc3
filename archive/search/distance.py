"""How many letters two words are apart: one wrong, one missing, one too many, or two changed about."""

from __future__ import annotations


def distance(one: str, other: str, most: int) -> int:
    """The edit distance (optimal string alignment), or `most` + 1 as soon as it must be more than `most`."""
    if abs(len(one) - len(other)) > most:
        return most + 1
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(one, start=1):
        earlier, before, row = before, row, [i]
        for j, opposite in enumerate(other, start=1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != opposite))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == opposite:
                cost = min(cost, earlier[j - 2] + 1)
            row.append(cost)
        if min(row) > most:
            return most + 1
    return min(row[-1], most + 1)
