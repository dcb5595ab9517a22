"""The tables of the shop's registers: instruments, lots on the shelf, suppliers' sheets."""

from __future__ import annotations

from sqlalchemy import BigInteger, Boolean, Column, Index, String, Table, Text, false, text

from bayleaf.adapters.tables import UUID, metadata

DAY = String(10)
COUNTS = text("withdrawn_ms = 0")

instrument = Table(
    "instrument",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("number", Text, nullable=False),
    Column("kind", Text, nullable=False),
    Column("calibrated_until", DAY, nullable=False),
    Column("note", Text, nullable=False),
    Column("gone", Boolean, nullable=False, server_default=false()),
    Column("changed_ms", BigInteger, nullable=False),
)

shelf_lot = Table(
    "shelf_lot",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("material", String(64), nullable=False),
    Column("lot", Text, nullable=False),
    Column("expires", DAY, nullable=False),
    Column("note", Text, nullable=False),
    Column("gone", Boolean, nullable=False, server_default=false()),
    Column("changed_ms", BigInteger, nullable=False),
)

sheet = Table(
    "sheet",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("group", String(16), nullable=False),
    Column("material", String(64), nullable=False),
    Column("name", Text, nullable=False),
    Column("sheet", Text, nullable=False),
    Column("revision", Text, nullable=False),
    Column("things", Text, nullable=False),
    Column("by", UUID, nullable=False),
    Column("made_ms", BigInteger, nullable=False),
    Column("withdrawn_ms", BigInteger, nullable=False, server_default="0"),
    Column("withdrawn_by", UUID, nullable=False, server_default=""),
    Column("why", Text, nullable=False, server_default=""),
    Index(
        "ix_sheet_revision",
        "material",
        "sheet",
        "revision",
        unique=True,
        sqlite_where=COUNTS,
        postgresql_where=COUNTS,
    ),
)
