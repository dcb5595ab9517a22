"""The tables of the doors: people, devices, codes, logins. Names of people stand here and in no entry."""

from __future__ import annotations

from sqlalchemy import BigInteger, Boolean, Column, ForeignKey, Integer, String, Table, Text, false

from bayleaf.adapters.tables import HASH, HEX_KEY, SIGNATURE, UUID, metadata

person = Table(
    "person",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("name", Text, nullable=False),
    Column("made_ms", BigInteger, nullable=False),
)

# One row, counted up with every change of a person, so that phones fetch the bundle again.
people_change = Table(
    "people_change",
    metadata,
    Column("id", Integer, primary_key=True, autoincrement=False),
    Column("version", BigInteger, nullable=False),
)

# Roles and qualifications alike: `role` is any id that an entry's `as` may hold.
person_role = Table(
    "person_role",
    metadata,
    Column("person", UUID, ForeignKey("person.id"), primary_key=True),
    Column("role", String(64), primary_key=True),
    Column("from_ms", BigInteger, primary_key=True, autoincrement=False),
    Column("until_ms", BigInteger, nullable=True),
    Column("qualification", Boolean, nullable=False, server_default=false()),
)

person_pin = Table(
    "person_pin",
    metadata,
    Column("person", UUID, ForeignKey("person.id"), primary_key=True),
    Column("verifier", Text, nullable=False),
)

# `name` is case-folded: the name at the office door.
office_login = Table(
    "office_login",
    metadata,
    Column("person", UUID, ForeignKey("person.id"), primary_key=True),
    Column("name", Text, nullable=False, unique=True),
    Column("password_hash", Text, nullable=False),
)

# `last_heard_ms`: its newest sync, and what it said it still held then.
device = Table(
    "device",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("public_key", HEX_KEY, nullable=False, index=True),
    Column("name", Text, nullable=False),
    Column("person", UUID, nullable=False),
    Column("state", String(16), nullable=False),
    Column("check_digits", String(4), nullable=False, server_default=""),
    Column("card", Text, nullable=False, server_default=""),
    Column("card_signature", SIGNATURE, nullable=False, server_default=""),
    Column("made_ms", BigInteger, nullable=False),
    Column("revoked_ms", BigInteger, nullable=True),
    Column("last_heard_ms", BigInteger, nullable=False, server_default="0"),
    Column("holds_entries", BigInteger, nullable=False, server_default="0"),
    Column("holds_photos", BigInteger, nullable=False, server_default="0"),
)

pair_code = Table(
    "pair_code",
    metadata,
    Column("code_hash", HASH, primary_key=True),
    Column("person", UUID, nullable=False),
    Column("expires_ms", BigInteger, nullable=False),
    Column("spent", Boolean, nullable=False, server_default=false()),
)

session = Table(
    "session",
    metadata,
    Column("token_hash", HASH, primary_key=True),
    Column("device", UUID, nullable=False, server_default=""),
    Column("person", UUID, nullable=False, server_default=""),
    Column("expires_ms", BigInteger, nullable=False),
)

challenge = Table(
    "challenge",
    metadata,
    Column("nonce_hash", HASH, primary_key=True),
    Column("device", UUID, nullable=False),
    Column("expires_ms", BigInteger, nullable=False),
)

# Wrong tries at a door, by a key that names who tried.
attempt = Table(
    "attempt",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("key", Text, nullable=False, index=True),
    Column("at_ms", BigInteger, nullable=False),
)
