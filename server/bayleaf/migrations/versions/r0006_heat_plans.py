"""Heat zones, their plans, and which job uses which."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "heat_zone",
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("invented", sa.Boolean(), nullable=False),
        sa.Column("added_ms", sa.BigInteger(), nullable=False),
        sa.Column("by", sa.String(length=36), nullable=False),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_heat_zone")),
    )
    op.create_table(
        "heat_plan",
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.Column("model", sa.String(length=64), nullable=False),
        sa.Column("state", sa.String(length=16), nullable=False),
        sa.Column("doing", sa.Text(), server_default="", nullable=False),
        sa.Column("share_permille", sa.Integer(), server_default="0", nullable=False),
        sa.Column("sentence", sa.Text(), server_default="", nullable=False),
        sa.Column("figures", sa.Text(), server_default="", nullable=False),
        sa.Column("answer", sa.Text(), server_default="", nullable=False),
        sa.Column("response", sa.LargeBinary(), nullable=True),
        sa.Column("response_sha256", sa.String(length=64), server_default="", nullable=False),
        sa.Column("response_bytes", sa.Integer(), server_default="0", nullable=False),
        sa.Column("field", sa.LargeBinary(), nullable=True),
        sa.Column("fault", sa.Text(), server_default="", nullable=False),
        sa.Column("asked_ms", sa.BigInteger(), nullable=False),
        sa.Column("done_ms", sa.BigInteger(), server_default="0", nullable=False),
        sa.PrimaryKeyConstraint("digest", "model", name=op.f("pk_heat_plan")),
    )
    op.create_index(op.f("ix_heat_plan_response_sha256"), "heat_plan", ["response_sha256"])
    op.create_table(
        "job_heat_plan",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("method", sa.String(length=64), nullable=False),
        sa.Column("zone", sa.String(length=64), nullable=False),
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.Column("model", sa.String(length=64), nullable=False),
        sa.Column("pinned_ms", sa.BigInteger(), nullable=False),
        sa.Column("by", sa.String(length=36), nullable=False),
        sa.Column("ended_ms", sa.BigInteger(), server_default="0", nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_job_heat_plan")),
    )
    op.create_index(op.f("ix_job_heat_plan_job"), "job_heat_plan", ["job"])
