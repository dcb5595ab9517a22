"""A supplier's sheet may be withdrawn; its revision may then be entered once more."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("sheet") as sheet:
        sheet.add_column(sa.Column("withdrawn_ms", sa.BigInteger(), server_default="0", nullable=False))
        sheet.add_column(sa.Column("withdrawn_by", sa.String(length=36), server_default="", nullable=False))
        sheet.add_column(sa.Column("why", sa.Text(), server_default="", nullable=False))
        sheet.drop_constraint("uq_sheet_material_sheet_revision", type_="unique")
    counts = sa.text("withdrawn_ms = 0")
    op.create_index(
        "ix_sheet_revision",
        "sheet",
        ["material", "sheet", "revision"],
        unique=True,
        sqlite_where=counts,
        postgresql_where=counts,
    )
