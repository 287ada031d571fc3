"""How rooms sound: their height and absorption, for the map of noise."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def _kept() -> tuple[sa.CheckConstraint]:
    """SQLite changes a table by making it anew, and a check that is not named here would be lost."""
    return (sa.CheckConstraint("capacity >= 0", name=op.f("ck_room_capacity")),)


def upgrade() -> None:
    with op.batch_alter_table("room", schema=None, table_args=_kept()) as batch_op:
        batch_op.add_column(sa.Column("height_m", sa.Double(), nullable=True))
        batch_op.add_column(sa.Column("absorption", sa.Double(), nullable=True))
        batch_op.create_check_constraint(
            batch_op.f("ck_room_sound"), "height_m > 0 and absorption > 0 and absorption <= 1"
        )


def downgrade() -> None:
    with op.batch_alter_table("room", schema=None, table_args=_kept()) as batch_op:
        batch_op.drop_column("absorption")
        batch_op.drop_column("height_m")
