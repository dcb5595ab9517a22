"""The tables of the record: entries, heads, methods, photos. Those of the doors stand in door_tables.py."""

from __future__ import annotations

from flask_sqlalchemy import SQLAlchemy
from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
    false,
    text,
    true,
)

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)
db = SQLAlchemy(metadata=metadata)

UUID = String(36)
HASH = String(64)
HEX_KEY = String(130)
SIGNATURE = String(128)
# Compared by its bytes on every database, so that a range of words is those that begin alike.
WORD = String(64).with_variant(String(64, collation="C"), "postgresql")

# One row. `log` names this store and is new whenever the store is made or was put back.
store = Table(
    "store",
    metadata,
    Column("id", Integer, primary_key=True, autoincrement=False),
    Column("log", UUID, nullable=False),
    Column("made_ms", BigInteger, nullable=False),
)

# Every device that this server ever was; one is current.
server_device = Table(
    "server_device",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("public_key", HEX_KEY, nullable=False),
    Column("private_pem", Text, nullable=False),
    Column("card", Text, nullable=False),
    Column("card_signature", SIGNATURE, nullable=False),
    Column("current", Boolean, nullable=False),
    Column("made_ms", BigInteger, nullable=False),
)

# `count` is the number of the newest entry. The other columns only repeat what the entries say, for lists.
job = Table(
    "job",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("count", BigInteger, nullable=False, server_default="0"),
    Column("shell", Boolean, nullable=False, server_default=false()),
    Column("order", Text, nullable=False, server_default=""),
    Column("vin", Text, nullable=False, server_default=""),
    Column("vehicle", Text, nullable=False, server_default=""),
    Column("part", Text, nullable=False, server_default=""),
    Column("made_ms", BigInteger, nullable=False, server_default="0"),
    Column("filed_ms", BigInteger, nullable=True),
    Index(None, "order"),
)
# The board asks for these every few seconds, and the filed ones beside them are many.
Index(
    "ix_job_open",
    job.c.made_ms,
    job.c.id,
    sqlite_where=text("filed_ms IS NULL"),
    postgresql_where=text("filed_ms IS NULL"),
)

# The record itself, its columns in the order of ports.LoggedEntry. `prev`, `kind`, `device`, `seq` repeat
# the text; `signed`: a valid head covers it.
entry = Table(
    "entry",
    metadata,
    Column("hash", HASH, primary_key=True),
    Column("job", UUID, ForeignKey("job.id"), nullable=False),
    Column("number", BigInteger, nullable=False),
    Column("device", UUID, nullable=False),
    Column("seq", BigInteger, nullable=False),
    Column("prev", HASH, nullable=False),
    Column("kind", Text, nullable=False),
    Column("text", Text, nullable=False),
    Column("received_ms", BigInteger, nullable=False),
    Column("offset_ms", BigInteger, nullable=True),
    Column("via_device", UUID, nullable=False),
    Column("signed", Boolean, nullable=False, server_default=true()),
    UniqueConstraint("job", "number"),
    Index(None, "job", "device", "seq"),
)
# Few entries are unsigned, and each push asks for them.
Index(
    "ix_entry_unsigned",
    entry.c.job,
    entry.c.device,
    sqlite_where=text("signed IS 0"),
    postgresql_where=text("signed IS false"),
)
# Which jobs used a lot, and which pin a method, is asked over all jobs.
Index(
    "ix_entry_lots",
    entry.c.received_ms,
    entry.c.hash,
    sqlite_where=text("kind = 'lot'"),
    postgresql_where=text("kind = 'lot'"),
)
Index(
    "ix_entry_pins",
    entry.c.received_ms,
    entry.c.hash,
    sqlite_where=text("kind = 'pin'"),
    postgresql_where=text("kind = 'pin'"),
)

refused = Table(
    "refused",
    metadata,
    Column("hash_of_text", HASH, primary_key=True),
    Column("job", UUID, nullable=False, index=True),
    Column("text", Text, nullable=False),
    Column("code", String(32), nullable=False),
    Column("message", Text, nullable=False),
    Column("field", Text, nullable=False),
    Column("device", UUID, nullable=False),
    Column("received_ms", BigInteger, nullable=False),
)

head = Table(
    "head",
    metadata,
    Column("job", UUID, primary_key=True),
    Column("device", UUID, primary_key=True),
    Column("hash", HASH, primary_key=True),
    Column("seq", BigInteger, nullable=False),
    Column("signature", SIGNATURE, nullable=False),
    Column("received_ms", BigInteger, nullable=False),
)

# What the `aside` and `admit` entries say, repeated so that what may be mended is found without a fold.
aside = Table(
    "aside",
    metadata,
    Column("job", UUID, primary_key=True),
    Column("hash", HASH, primary_key=True),
    Column("code", String(32), nullable=False),
    Column("admitted", Boolean, nullable=False, server_default=false()),
)

# What the `assign` entries say, as spans of the server's clock.
assignment = Table(
    "assignment",
    metadata,
    Column("job", UUID, primary_key=True),
    Column("person", UUID, primary_key=True, index=True),
    Column("from_ms", BigInteger, primary_key=True, autoincrement=False),
    Column("until_ms", BigInteger, nullable=True),
)

# Which photos and thumbnails the `photo` entries of a job name.
photo_named = Table(
    "photo_named",
    metadata,
    Column("job", UUID, primary_key=True),
    Column("sha256", HASH, primary_key=True, index=True),
    Column("thumb", HASH, primary_key=True, index=True),
)

method = Table(
    "method",
    metadata,
    Column("digest", HASH, primary_key=True),
    Column("text", Text, nullable=False),
    Column("yaml", Text, nullable=False, server_default=""),
    Column("imported_ms", BigInteger, nullable=False),
)

drawing = Table(
    "drawing",
    metadata,
    Column("sha256", HASH, primary_key=True),
    Column("bytes", LargeBinary, nullable=False),
)

# `settled_ms`: the newest sync after which the device held nothing unsent.
hearing = Table(
    "hearing",
    metadata,
    Column("device", UUID, primary_key=True),
    Column("settled_ms", BigInteger, nullable=False),
)

clock_sync = Table(
    "clock_sync",
    metadata,
    Column("device", UUID, primary_key=True),
    Column("load", UUID, primary_key=True),
    Column("server_ms", BigInteger, primary_key=True, autoincrement=False),
    Column("at_ms", BigInteger, nullable=False),
    Column("mono_ms", BigInteger, nullable=False),
)

upload = Table(
    "upload",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("sha256", HASH, nullable=False),
    Column("bytes", BigInteger, nullable=False),
    Column("type", String(16), nullable=False),
    Column("job", UUID, nullable=False),
    Column("device", UUID, nullable=False),
    Column("made_ms", BigInteger, nullable=False),
    Column("whole", Boolean, nullable=False, server_default=false()),
)

# Photos whose bytes are here. `covered_ms`: since when a finished backup or a dossier holds them.
photo = Table(
    "photo",
    metadata,
    Column("sha256", HASH, primary_key=True),
    Column("bytes", BigInteger, nullable=False),
    Column("type", String(16), nullable=False),
    Column("width", Integer, nullable=False),
    Column("height", Integer, nullable=False),
    Column("stored_ms", BigInteger, nullable=False),
    Column("covered_ms", BigInteger, nullable=True),
)

filed = Table(
    "filed",
    metadata,
    Column("id", UUID, primary_key=True),
    Column("job", UUID, nullable=False, index=True),
    Column("file_hash", HASH, nullable=False),
    Column("sha256", HASH, nullable=False),
    Column("seal_fingerprint", HASH, nullable=False),
    Column("filed_ms", BigInteger, nullable=False),
    Column("reason", Text, nullable=False),
    Column("file_number", BigInteger, nullable=False, server_default="0"),
    Column("supersedes", UUID, nullable=False, server_default=""),
    Column("superseded_by", UUID, nullable=False, server_default=""),
    Column("late_ms", BigInteger, nullable=True),
)
# The newest dossier of each job, as the list of the filed pages through them.
Index(
    "ix_filed_newest",
    filed.c.filed_ms,
    filed.c.id,
    sqlite_where=text("superseded_by = ''"),
    postgresql_where=text("superseded_by = ''"),
)
Index(
    "ix_filed_late",
    filed.c.filed_ms,
    filed.c.id,
    sqlite_where=text("late_ms IS NOT NULL"),
    postgresql_where=text("late_ms IS NOT NULL"),
)

# What a dossier is found by; written with its line. A person stands there by id: names are kept elsewhere.
filed_word = Table(
    "filed_word",
    metadata,
    Column("dossier", UUID, primary_key=True),
    Column("field", String(8), primary_key=True),
    Column("word", WORD, primary_key=True),
    Column("said", Text, nullable=False),
    Index(None, "word"),
)

office_log = Table(
    "office_log",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("at_ms", BigInteger, nullable=False),
    Column("device", UUID, nullable=False),
    Column("job", UUID, nullable=False),
    Column("text", Text, nullable=False),
)
