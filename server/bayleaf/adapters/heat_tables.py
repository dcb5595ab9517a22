"""The tables of heat zones, their plans, and which job uses which."""

from __future__ import annotations

from sqlalchemy import BigInteger, Boolean, Column, Integer, LargeBinary, String, Table, Text

from bayleaf.adapters.tables import HASH, UUID, metadata

SLUG = String(64)

heat_zone = Table(
    "heat_zone",
    metadata,
    Column("digest", HASH, primary_key=True),
    Column("id", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("text", Text, nullable=False),
    Column("invented", Boolean, nullable=False),
    Column("added_ms", BigInteger, nullable=False),
    Column("by", UUID, nullable=False),
)

# A zone is planned once by each model: an answer that a job was given stays when a newer program plans anew.
heat_plan = Table(
    "heat_plan",
    metadata,
    Column("digest", HASH, primary_key=True),
    Column("model", SLUG, primary_key=True),
    Column("state", String(16), nullable=False),
    Column("doing", Text, nullable=False, server_default=""),
    Column("share_permille", Integer, nullable=False, server_default="0"),
    Column("sentence", Text, nullable=False, server_default=""),
    Column("figures", Text, nullable=False, server_default=""),
    Column("answer", Text, nullable=False, server_default=""),
    Column("response", LargeBinary, nullable=True),
    Column("response_sha256", HASH, nullable=False, server_default="", index=True),
    Column("response_bytes", Integer, nullable=False, server_default="0"),
    Column("field", LargeBinary, nullable=True),
    Column("fault", Text, nullable=False, server_default=""),
    Column("asked_ms", BigInteger, nullable=False),
    Column("done_ms", BigInteger, nullable=False, server_default="0"),
)

# Nothing is taken away: what a job used before stays known, with when it ended (0: it holds).
job_heat_plan = Table(
    "job_heat_plan",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("job", UUID, nullable=False, index=True),
    Column("method", SLUG, nullable=False),
    Column("zone", SLUG, nullable=False),
    Column("digest", HASH, nullable=False),
    Column("model", SLUG, nullable=False),
    Column("pinned_ms", BigInteger, nullable=False),
    Column("by", UUID, nullable=False),
    Column("ended_ms", BigInteger, nullable=False, server_default="0"),
)
