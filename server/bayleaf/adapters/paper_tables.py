"""The table of makers' instructions."""

from __future__ import annotations

from sqlalchemy import BigInteger, Column, String, Table, Text

from bayleaf.adapters.tables import HASH, UUID, metadata

# Each belongs to a job, a method, or that method in that job.
paper = Table(
    "paper",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("sha256", HASH, nullable=False, index=True),
    Column("job", UUID, nullable=False),
    Column("method", String(64), nullable=False),
    Column("name", Text, nullable=False),
    Column("bytes", BigInteger, nullable=False),
    Column("added_ms", BigInteger, nullable=False),
)
