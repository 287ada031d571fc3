"""What is masked for each closure: itself and its guard on both sides."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None

# As in archive/audio/guarding.py on the day of this step. A step stands for itself, so it asks no code of today's.
_BEFORE_MS, _AFTER_MS = 60, 50

# SQLite changes a table by making it anew, and a check that is not named here would be lost.
_SPAN = "0 <= start_ms and start_ms < end_ms"
_MASK = "0 <= masked_start_ms and masked_start_ms <= start_ms and end_ms <= masked_end_ms"


_MASKED = (sa.column("masked_start_ms", sa.Integer()), sa.column("masked_end_ms", sa.Integer()))


def _kept() -> tuple[sa.CheckConstraint]:
    return (sa.CheckConstraint(_SPAN, name=op.f("ck_closure_span")),)


def upgrade() -> None:
    with op.batch_alter_table("closure", table_args=_kept()) as batch_op:
        batch_op.add_column(sa.Column("masked_start_ms", sa.Integer(), nullable=True))
        batch_op.add_column(sa.Column("masked_end_ms", sa.Integer(), nullable=True))
    _guard_what_is_there()
    with op.batch_alter_table("closure", table_args=_kept()) as batch_op:
        batch_op.alter_column("masked_start_ms", existing_type=sa.Integer(), nullable=False)
        batch_op.alter_column("masked_end_ms", existing_type=sa.Integer(), nullable=False)
        batch_op.create_check_constraint(batch_op.f("ck_closure_mask"), _MASK)


def _guard_what_is_there() -> None:
    """The guard without pauses: never past the recording's end, and never less than the closure."""
    closure = sa.table("closure", *map(sa.column, ("recording_id", "start_ms", "end_ms")), *_MASKED)
    recording = sa.table("recording", sa.column("id"), sa.column("duration_ms"))
    start, end = closure.c.start_ms, closure.c.end_ms
    duration = (
        sa.select(recording.c.duration_ms).where(recording.c.id == closure.c.recording_id).correlate(closure)
    ).scalar_subquery()
    op.execute(
        closure.update().values(
            masked_start_ms=sa.case((start < _BEFORE_MS, 0), else_=start - _BEFORE_MS),
            masked_end_ms=sa.case(
                (end + _AFTER_MS <= duration, end + _AFTER_MS), (end <= duration, duration), else_=end
            ),
        )
    )


def downgrade() -> None:
    with op.batch_alter_table("closure", table_args=_kept()) as batch_op:
        batch_op.drop_column("masked_end_ms")
        batch_op.drop_column("masked_start_ms")
