"""The tables of loggers: their files, the bytes of these, and their keys."""

from __future__ import annotations

from sqlalchemy import BigInteger, Column, LargeBinary, String, Table, Text

from bayleaf.adapters.tables import HASH, UUID, metadata

reading_file = Table(
    "reading_file",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("sha256", HASH, nullable=False, index=True),
    Column("job", UUID, nullable=False, index=True),
    Column("run", HASH, nullable=False),
    Column("name", Text, nullable=False),
    Column("bytes", BigInteger, nullable=False),
    Column("by", UUID, nullable=False),
    Column("added_ms", BigInteger, nullable=False),
    Column("logger", String(100), nullable=False, index=True),
    Column("mapping", Text, nullable=False),
    Column("outcome", Text, nullable=False),
    Column("read_ms", BigInteger, nullable=False),
)

# Apart from the rows, so that a list of files reads none of their bytes. Gzipped.
reading_bytes = Table(
    "reading_bytes",
    metadata,
    Column("sha256", HASH, primary_key=True),
    Column("gz", LargeBinary, nullable=False),
)

logger_key = Table(
    "logger_key",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("key_hash", HASH, nullable=False, index=True),
    Column("job", UUID, nullable=False, index=True),
    Column("run", HASH, nullable=False),
    Column("logger", String(100), nullable=False),
    Column("by", UUID, nullable=False),
    Column("made_ms", BigInteger, nullable=False),
    Column("ended_ms", BigInteger, nullable=False),
    Column("heard_ms", BigInteger, nullable=False),
    Column("readings", BigInteger, nullable=False),
)
