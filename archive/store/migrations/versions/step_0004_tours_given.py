"""Tours given: work in the background, places out of use, obstacles, departures, versions, logs of outings and runs."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "job",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=32), nullable=False),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("who", sa.String(length=120), nullable=False),
        sa.Column("inputs", sa.JSON(), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("share", sa.Double(), nullable=False),
        sa.Column("says", sa.Text(), nullable=False),
        sa.Column("outcome", sa.JSON(), nullable=True),
        sa.Column("stop_asked", sa.Boolean(), nullable=False),
        sa.Column("asked_at", sa.DateTime(), nullable=False),
        sa.Column("ended_at", sa.DateTime(), nullable=True),
        sa.CheckConstraint("state in ('waiting', 'working', 'done', 'failed', 'stopped')", name=op.f("ck_job_state")),
        sa.CheckConstraint("share >= 0 and share <= 1", name=op.f("ck_job_share")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_job")),
        sa.UniqueConstraint("key", name=op.f("uq_job_key")),
    )
    op.create_table(
        "out_of_use",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("place", sa.String(length=64), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("until_day", sa.Date(), nullable=True),
        sa.Column("why", sa.String(length=300), nullable=False),
        sa.CheckConstraint("kind in ('door', 'passage', 'room', 'station')", name=op.f("ck_out_of_use_kind")),
        sa.CheckConstraint("until_day is null or until_day >= from_day", name=op.f("ck_out_of_use_days")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_out_of_use")),
    )
    op.create_index(op.f("ix_out_of_use_place"), "out_of_use", ["place"])

    op.create_table(
        "machine_run",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("machine", sa.String(length=64), nullable=False),
        sa.Column("demonstration", sa.String(length=64), nullable=False),
        sa.Column("outing", sa.String(length=64), nullable=False),
        sa.Column("operator", sa.String(length=120), nullable=False),
        sa.Column("account_id", sa.Integer(), nullable=True),
        sa.Column("started_at", sa.DateTime(), nullable=False),
        sa.Column("minutes", sa.Double(), nullable=True),
        sa.Column("confirmed", sa.JSON(), nullable=False),
        sa.Column("faults", sa.Text(), nullable=False),
        sa.CheckConstraint("minutes is null or minutes >= 0", name=op.f("ck_machine_run_minutes")),
        sa.ForeignKeyConstraint(
            ["account_id"], ["account.id"], name=op.f("fk_machine_run_account_id_account"), ondelete="SET NULL"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_machine_run")),
        sa.UniqueConstraint("key", name=op.f("uq_machine_run_key")),
    )
    op.create_index(op.f("ix_machine_run_account_id"), "machine_run", ["account_id"])
    op.create_index(op.f("ix_machine_run_machine"), "machine_run", ["machine"])

    op.create_table(
        "obstacle",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("ref", sa.String(length=64), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=12), nullable=False),
        sa.Column("room_id", sa.Integer(), nullable=False),
        sa.Column("element", sa.String(length=120), nullable=False),
        sa.Column("outline", sa.JSON(), nullable=False),
        sa.CheckConstraint("kind in ('machine', 'bench', 'barrier')", name=op.f("ck_obstacle_kind")),
        sa.ForeignKeyConstraint(["room_id"], ["room.id"], name=op.f("fk_obstacle_room_id_room"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_obstacle")),
        sa.UniqueConstraint("ref", name=op.f("uq_obstacle_ref")),
    )
    op.create_index(op.f("ix_obstacle_room_id"), "obstacle", ["room_id"])

    op.create_table(
        "departure",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("ref", sa.String(length=64), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("tour_id", sa.Integer(), nullable=True),
        sa.Column("guide", sa.String(length=120), nullable=False),
        sa.Column("group_size", sa.Integer(), nullable=False),
        sa.Column("earliest", sa.Integer(), nullable=False),
        sa.Column("latest", sa.Integer(), nullable=False),
        sa.Column("leaves", sa.Integer(), nullable=True),
        sa.Column("fixed", sa.Boolean(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("earliest >= 0 and latest >= earliest and latest <= 1440", name=op.f("ck_departure_window")),
        sa.CheckConstraint("group_size > 0", name=op.f("ck_departure_group")),
        sa.ForeignKeyConstraint(["tour_id"], ["tour.id"], name=op.f("fk_departure_tour_id_tour"), ondelete="SET NULL"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_departure")),
        sa.UniqueConstraint("ref", name=op.f("uq_departure_ref")),
    )
    op.create_index(op.f("ix_departure_day"), "departure", ["day"])
    op.create_index(op.f("ix_departure_tour_id"), "departure", ["tour_id"])

    op.create_table(
        "tour_version",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tour_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.DateTime(), nullable=False),
        sa.Column("who", sa.String(length=120), nullable=False),
        sa.Column("said", sa.String(length=300), nullable=False),
        sa.Column("state", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["tour_id"], ["tour.id"], name=op.f("fk_tour_version_tour_id_tour"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_tour_version")),
        sa.UniqueConstraint("tour_id", "number", name=op.f("uq_tour_version_tour_id_number")),
    )
    op.create_index(op.f("ix_tour_version_tour_id"), "tour_version", ["tour_id"])

    op.create_table(
        "outing_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("outing_id", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.Column("kind", sa.String(length=12), nullable=False),
        sa.Column("station", sa.String(length=64), nullable=False),
        sa.Column("telling", sa.String(length=64), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["outing_id"], ["outing.id"], name=op.f("fk_outing_entry_outing_id_outing"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_outing_entry")),
        sa.UniqueConstraint("key", name=op.f("uq_outing_entry_key")),
    )
    op.create_index(op.f("ix_outing_entry_outing_id"), "outing_entry", ["outing_id"])


def downgrade() -> None:
    op.drop_table("outing_entry")
    op.drop_table("tour_version")
    op.drop_table("departure")
    op.drop_table("obstacle")
    op.drop_table("machine_run")
    op.drop_table("out_of_use")
    op.drop_table("job")
