"""Files of loggers, their bytes, and the keys that loggers call with."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "reading_file",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("run", sa.String(length=64), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("bytes", sa.BigInteger(), nullable=False),
        sa.Column("by", sa.String(length=36), nullable=False),
        sa.Column("added_ms", sa.BigInteger(), nullable=False),
        sa.Column("logger", sa.String(length=100), nullable=False),
        sa.Column("mapping", sa.Text(), nullable=False),
        sa.Column("outcome", sa.Text(), nullable=False),
        sa.Column("read_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reading_file")),
    )
    op.create_index(op.f("ix_reading_file_sha256"), "reading_file", ["sha256"])
    op.create_index(op.f("ix_reading_file_job"), "reading_file", ["job"])
    op.create_index(op.f("ix_reading_file_logger"), "reading_file", ["logger"])
    op.create_table(
        "reading_bytes",
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("gz", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("sha256", name=op.f("pk_reading_bytes")),
    )
    op.create_table(
        "logger_key",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("key_hash", sa.String(length=64), nullable=False),
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("run", sa.String(length=64), nullable=False),
        sa.Column("logger", sa.String(length=100), nullable=False),
        sa.Column("by", sa.String(length=36), nullable=False),
        sa.Column("made_ms", sa.BigInteger(), nullable=False),
        sa.Column("ended_ms", sa.BigInteger(), nullable=False),
        sa.Column("heard_ms", sa.BigInteger(), nullable=False),
        sa.Column("readings", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_logger_key")),
    )
    op.create_index(op.f("ix_logger_key_key_hash"), "logger_key", ["key_hash"])
    op.create_index(op.f("ix_logger_key_job"), "logger_key", ["job"])
