"""Tours planned: what walking, demonstrations, tellings, tours and outings are asked besides."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

_PLAIN = (
    ("demonstration", "sudden"),
    ("stop", "pinned"),
    ("stop_telling", "pinned"),
    ("telling", "withdrawn"),
    ("tour", "withdrawn"),
)
# SQLite changes a table by making it anew, and a check that is not named here would be lost.
_DOOR = ("width_m > 0 and headroom_m > 0 and step_mm >= 0", "ck_door_sizes")
_PASSAGE = ("kind in ('stairs', 'lift', 'ramp')", "ck_passage_kind")


def _kept(words: str, name: str) -> tuple[sa.CheckConstraint]:
    return (sa.CheckConstraint(words, name=op.f(name)),)


def upgrade() -> None:
    for table, column in _PLAIN:
        op.add_column(table, sa.Column(column, sa.Boolean(), nullable=False, server_default=sa.false()))
    op.add_column("tour", sa.Column("outcome", sa.JSON(), nullable=False, server_default="{}"))
    op.add_column("tour", sa.Column("version", sa.Integer(), nullable=False, server_default="0"))
    with op.batch_alter_table("door", table_args=_kept(*_DOOR)) as batch_op:
        batch_op.add_column(sa.Column("gradient_percent", sa.Double(), nullable=False, server_default="0"))
        batch_op.create_check_constraint(batch_op.f("ck_door_gradient"), "gradient_percent >= 0")
    with op.batch_alter_table("passage", table_args=_kept(*_PASSAGE)) as batch_op:
        batch_op.add_column(sa.Column("headroom_m", sa.Double(), nullable=False, server_default="2"))
        batch_op.create_check_constraint(batch_op.f("ck_passage_headroom"), "headroom_m > 0")
    with op.batch_alter_table("outing") as batch_op:
        batch_op.add_column(sa.Column("key", sa.String(length=64), nullable=True))
        batch_op.add_column(sa.Column("planned", sa.JSON(), nullable=False, server_default="[]"))
        batch_op.create_unique_constraint(batch_op.f("uq_outing_key"), ["key"])


def downgrade() -> None:
    with op.batch_alter_table("outing") as batch_op:
        batch_op.drop_constraint(batch_op.f("uq_outing_key"), type_="unique")
        batch_op.drop_column("planned")
        batch_op.drop_column("key")
    with op.batch_alter_table("passage", table_args=_kept(*_PASSAGE)) as batch_op:
        batch_op.drop_column("headroom_m")
    with op.batch_alter_table("door", table_args=_kept(*_DOOR)) as batch_op:
        batch_op.drop_column("gradient_percent")
    op.drop_column("tour", "version")
    op.drop_column("tour", "outcome")
    for table, column in _PLAIN:
        op.drop_column(table, column)
