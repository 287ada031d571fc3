"""Clips that bear witness to a hazard."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "clip_hazard",
        sa.Column("clip_id", sa.Integer(), nullable=False),
        sa.Column("hazard_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["clip_id"], ["clip.id"], name=op.f("fk_clip_hazard_clip_id_clip"), ondelete="CASCADE"),
        sa.ForeignKeyConstraint(
            ["hazard_id"], ["hazard.id"], name=op.f("fk_clip_hazard_hazard_id_hazard"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("clip_id", "hazard_id", name=op.f("pk_clip_hazard")),
    )
    op.create_index(op.f("ix_clip_hazard_hazard_id"), "clip_hazard", ["hazard_id"])


def downgrade() -> None:
    op.drop_table("clip_hazard")
