"""Runs of machines marked: those without a clearance in force, and faults that a keeper has had mended."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("machine_run", sa.Column("lapsed", sa.JSON(), nullable=False, server_default="[]"))
    op.add_column("machine_run", sa.Column("mended_on", sa.Date(), nullable=True))
    op.add_column("machine_run", sa.Column("mended_by", sa.String(length=120), nullable=False, server_default=""))
    op.add_column("machine_run", sa.Column("mended_note", sa.Text(), nullable=False, server_default=""))


def downgrade() -> None:
    for column in ("mended_note", "mended_by", "mended_on", "lapsed"):
        op.drop_column("machine_run", column)
