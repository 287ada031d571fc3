"""The standing of a statement from its evidence."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.evidence.standing import Piece, Standing, standing

pieces = st.builds(
    Piece,
    side=st.sampled_from(["for", "against"]),
    kind=st.sampled_from(["segment", "object", "document", "reckoning"]),
    source=st.sampled_from(["ada", "bea", "cy"]),
    firsthand=st.booleans(),
)


def told(source: str, *, firsthand: bool = True, side: str = "for", kind: str = "segment") -> Piece:
    """One piece of evidence."""
    return Piece(side, kind, source, firsthand)


@pytest.mark.parametrize(
    ("evidence", "expected"),
    [
        ([], Standing.UNSUPPORTED),
        ([told("ada", side="against")], Standing.UNSUPPORTED),
        ([told("ada"), told("bea", side="against")], Standing.CONTESTED),
        ([told("wages book", kind="document"), told("ada", side="against")], Standing.CONTESTED),
        ([told("ada", firsthand=False)], Standing.HANDED_DOWN),
        ([told("ada", firsthand=False), told("bea", firsthand=False)], Standing.HANDED_DOWN),
        ([told("ada")], Standing.RECALLED_BY_ONE),
        ([told("ada"), told("ada")], Standing.RECALLED_BY_ONE),
        ([told("ada"), told("bea", firsthand=False)], Standing.RECALLED_BY_ONE),
        ([told("ada"), told("bea")], Standing.RECALLED_BY_SEVERAL),
        ([told("ada"), told("sum", kind="reckoning")], Standing.COMPUTED),
        ([told("sum", kind="reckoning"), told("SM.1", kind="object")], Standing.DOCUMENTED),
    ],
)
def test_each_standing(evidence: list[Piece], expected: Standing) -> None:
    """The table of the rule."""
    assert standing(evidence) is expected


@given(st.lists(pieces))
def test_the_order_of_evidence_does_not_matter(evidence: list[Piece]) -> None:
    """Nor does telling a piece twice."""
    assert standing(evidence) is standing(evidence[::-1]) is standing(evidence + evidence)


@given(st.lists(pieces, min_size=1))
def test_evidence_against_never_leaves_a_statement_plain(evidence: list[Piece]) -> None:
    """Anything against makes it contested or unsupported."""
    against = Piece("against", "segment", "zed", True)
    assert standing([*evidence, against]) in {Standing.CONTESTED, Standing.UNSUPPORTED}
