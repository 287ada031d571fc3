"""What a shell or an address gives to a reckoner: names with values, each once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from archive.errors import Fault, Unacceptable


def pairs_written(words: Iterable[str]) -> list[tuple[str, str]]:
    """`key=value` words of a shell as pairs; Unacceptable tells every word that is none."""
    split = [(word, *word.partition("=")) for word in words]
    wrong = [word for word, key, mark, _ in split if not (mark and key.strip())]
    if wrong:
        allowed = "Write each as name=value, such as fall=1.7m; put it in quotes if it has a space"
        faults = [Fault(word[:60], 0, "It is no name with a value", allowed) for word in wrong]
        raise Unacceptable(faults, "The command", left="nothing was reckoned")
    return [(key.strip(), value) for _, key, _, value in split]


def each_once(pairs: Sequence[tuple[str, str]]) -> dict[str, str]:
    """Pairs by name; Unacceptable where a name stands twice, since it is not known which one is meant."""
    names = [name for name, _ in pairs]
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        faults = [Fault(name[:60], 0, "It was given twice", "Give it once") for name in twice]
        raise Unacceptable(faults, "What was given", left="nothing was reckoned")
    return dict(pairs)
