"""Calls by web push: who is to be called, what was sent, and plain settings of the shop."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "setting",
        sa.Column("name", sa.String(length=64), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_setting")),
    )
    op.create_table(
        "push_subscription",
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("endpoint", sa.Text(), nullable=False),
        sa.Column("p256dh", sa.String(length=96), nullable=False),
        sa.Column("auth", sa.String(length=32), nullable=False),
        sa.Column("runs", sa.Boolean(), nullable=False),
        sa.Column("signs", sa.Boolean(), nullable=False),
        sa.Column("made_ms", sa.BigInteger(), nullable=False),
        sa.Column("trouble", sa.Text(), server_default="", nullable=False),
        sa.Column("trouble_ms", sa.BigInteger(), server_default="0", nullable=False),
        sa.PrimaryKeyConstraint("device", name=op.f("pk_push_subscription")),
    )
    op.create_table(
        "push_sent",
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("at_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("device", "key", name=op.f("pk_push_sent")),
    )
    op.create_index(op.f("ix_push_sent_at_ms"), "push_sent", ["at_ms"])
