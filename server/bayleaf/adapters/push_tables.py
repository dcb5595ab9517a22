"""The tables of calls by web push, and the plain settings of the shop."""

from __future__ import annotations

from sqlalchemy import BigInteger, Boolean, Column, String, Table, Text

from bayleaf.adapters.tables import HASH, UUID, metadata

setting = Table(
    "setting",
    metadata,
    Column("name", String(64), primary_key=True),
    Column("value", Text, nullable=False),
)

# One a device: its browser has one at a time. `trouble`: why the push service refused the newest call.
push_subscription = Table(
    "push_subscription",
    metadata,
    Column("device", UUID, primary_key=True),
    Column("endpoint", Text, nullable=False),
    Column("p256dh", String(96), nullable=False),
    Column("auth", String(32), nullable=False),
    Column("runs", Boolean, nullable=False),
    Column("signs", Boolean, nullable=False),
    Column("made_ms", BigInteger, nullable=False),
    Column("trouble", Text, nullable=False, server_default=""),
    Column("trouble_ms", BigInteger, nullable=False, server_default="0"),
)

# `key` is the SHA-256 of what was called: job, run or step, moment.
push_sent = Table(
    "push_sent",
    metadata,
    Column("device", UUID, primary_key=True),
    Column("key", HASH, primary_key=True),
    Column("at_ms", BigInteger, nullable=False, index=True),
)
