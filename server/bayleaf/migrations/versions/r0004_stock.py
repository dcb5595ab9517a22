"""Instruments, lots on the shelf, suppliers' sheets; lots and pins are found over all jobs."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "instrument",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("calibrated_until", sa.String(length=10), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("gone", sa.Boolean(), server_default=sa.false(), nullable=False),
        sa.Column("changed_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_instrument")),
    )
    op.create_table(
        "shelf_lot",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("material", sa.String(length=64), nullable=False),
        sa.Column("lot", sa.Text(), nullable=False),
        sa.Column("expires", sa.String(length=10), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("gone", sa.Boolean(), server_default=sa.false(), nullable=False),
        sa.Column("changed_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_shelf_lot")),
    )
    op.create_table(
        "sheet",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("group", sa.String(length=16), nullable=False),
        sa.Column("material", sa.String(length=64), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("sheet", sa.Text(), nullable=False),
        sa.Column("revision", sa.Text(), nullable=False),
        sa.Column("things", sa.Text(), nullable=False),
        sa.Column("by", sa.String(length=36), nullable=False),
        sa.Column("made_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sheet")),
        sa.UniqueConstraint("material", "sheet", "revision", name=op.f("uq_sheet_material_sheet_revision")),
    )
    _index("ix_entry_lots", "kind = 'lot'")
    _index("ix_entry_pins", "kind = 'pin'")


def _index(name: str, where: str) -> None:
    condition = sa.text(where)
    op.create_index(
        name, "entry", ["received_ms", "hash"], sqlite_where=condition, postgresql_where=condition
    )
