"""Sound and words: what a pass over a master finds, versions of transcripts, typed files, uploads, clips' own sound."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

# SQLite changes a table by making it anew, and a check that is not named here would be lost.
_RECORDING = ("duration_ms > 0", "ck_recording_duration")
_SEGMENT = ("0 <= start_ms and start_ms < end_ms", "ck_segment_span")


def _kept(words: str, name: str) -> tuple[sa.CheckConstraint]:
    return (sa.CheckConstraint(words, name=op.f(name)),)


def upgrade() -> None:
    op.create_table(
        "upload",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=32), nullable=False),
        sa.Column("interview", sa.String(length=64), nullable=False),
        sa.Column("file_name", sa.String(length=200), nullable=False),
        sa.Column("size", sa.BigInteger(), nullable=False),
        sa.Column("received", sa.BigInteger(), nullable=False),
        sa.Column("who", sa.String(length=120), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("says", sa.Text(), nullable=False),
        sa.Column("job", sa.String(length=32), nullable=False),
        sa.Column("begun_at", sa.DateTime(), nullable=False),
        sa.CheckConstraint(
            "state in ('arriving', 'arrived', 'taken in', 'refused', 'dropped')", name=op.f("ck_upload_state")
        ),
        sa.CheckConstraint("0 <= received and received <= size", name=op.f("ck_upload_received")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_upload")),
        sa.UniqueConstraint("key", name=op.f("uq_upload_key")),
    )
    op.create_index(op.f("ix_upload_interview"), "upload", ["interview"])

    op.create_table(
        "cut_clip",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("recording_id", sa.Integer(), nullable=False),
        sa.Column("made_from", sa.String(length=64), nullable=False),
        sa.Column("form", sa.String(length=10), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("made_at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(
            ["recording_id"], ["recording.id"], name=op.f("fk_cut_clip_recording_id_recording"), ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(["sha256"], ["kept_file.sha256"], name=op.f("fk_cut_clip_sha256_kept_file")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_cut_clip")),
        sa.UniqueConstraint("made_from", "form", name=op.f("uq_cut_clip_made_from_form")),
    )
    op.create_index(op.f("ix_cut_clip_recording_id"), "cut_clip", ["recording_id"])

    op.create_table(
        "transcript_file",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("recording_id", sa.Integer(), nullable=False),
        sa.Column("file_name", sa.String(length=200), nullable=False),
        sa.Column("form", sa.String(length=20), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("taken_at", sa.DateTime(), nullable=False),
        sa.Column("who", sa.String(length=120), nullable=False),
        sa.ForeignKeyConstraint(
            ["recording_id"],
            ["recording.id"],
            name=op.f("fk_transcript_file_recording_id_recording"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(["sha256"], ["kept_file.sha256"], name=op.f("fk_transcript_file_sha256_kept_file")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_transcript_file")),
    )
    op.create_index(op.f("ix_transcript_file_recording_id"), "transcript_file", ["recording_id"])

    op.create_table(
        "transcript_version",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("recording_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.DateTime(), nullable=False),
        sa.Column("who", sa.String(length=120), nullable=False),
        sa.Column("said", sa.String(length=300), nullable=False),
        sa.Column("lines", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["recording_id"],
            ["recording.id"],
            name=op.f("fk_transcript_version_recording_id_recording"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_transcript_version")),
        sa.UniqueConstraint("recording_id", "number", name=op.f("uq_transcript_version_recording_id_number")),
    )
    op.create_index(op.f("ix_transcript_version_recording_id"), "transcript_version", ["recording_id"])
    _change_recordings()
    _change_segments()


def _change_recordings() -> None:
    with op.batch_alter_table("recording", table_args=_kept(*_RECORDING)) as batch_op:
        batch_op.add_column(sa.Column("facts", sa.JSON(), nullable=False, server_default="{}"))
        batch_op.add_column(sa.Column("damage", sa.Text(), nullable=False, server_default=""))
        batch_op.add_column(sa.Column("likeness", sa.JSON(), nullable=False, server_default="[]"))
        batch_op.add_column(
            sa.Column("transcript_state", sa.String(length=10), nullable=False, server_default="checked")
        )
        batch_op.add_column(sa.Column("transcript_version", sa.Integer(), nullable=False, server_default="0"))
        batch_op.create_check_constraint(
            batch_op.f("ck_recording_transcript_state"), "transcript_state in ('none', 'draft', 'checked')"
        )


def _change_segments() -> None:
    with op.batch_alter_table("segment", table_args=_kept(*_SEGMENT)) as batch_op:
        batch_op.add_column(sa.Column("confidence", sa.Double(), nullable=True))
        batch_op.add_column(sa.Column("doubtful", sa.Boolean(), nullable=False, server_default=sa.false()))
        batch_op.create_check_constraint(
            batch_op.f("ck_segment_confidence"), "confidence is null or (confidence >= 0 and confidence <= 1)"
        )


def downgrade() -> None:
    with op.batch_alter_table("segment", table_args=_kept(*_SEGMENT)) as batch_op:
        batch_op.drop_column("doubtful")
        batch_op.drop_column("confidence")
    with op.batch_alter_table("recording", table_args=_kept(*_RECORDING)) as batch_op:
        for column in ("transcript_version", "transcript_state", "likeness", "damage", "facts"):
            batch_op.drop_column(column)
    op.drop_table("transcript_version")
    op.drop_table("transcript_file")
    op.drop_table("cut_clip")
    op.drop_table("upload")
