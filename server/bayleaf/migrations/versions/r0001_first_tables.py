"""The first tables of the store."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "aside",
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("hash", sa.String(length=64), nullable=False),
        sa.Column("code", sa.String(length=32), nullable=False),
        sa.Column("admitted", sa.Boolean(), server_default=sa.false(), nullable=False),
        sa.PrimaryKeyConstraint("job", "hash", name=op.f("pk_aside")),
    )
    op.create_table(
        "assignment",
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("person", sa.String(length=36), nullable=False),
        sa.Column("from_ms", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("until_ms", sa.BigInteger(), nullable=True),
        sa.PrimaryKeyConstraint("job", "person", "from_ms", name=op.f("pk_assignment")),
    )
    with op.batch_alter_table("assignment", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_assignment_person"), ["person"], unique=False)

    op.create_table(
        "attempt",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("at_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_attempt")),
    )
    with op.batch_alter_table("attempt", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_attempt_key"), ["key"], unique=False)

    op.create_table(
        "challenge",
        sa.Column("nonce_hash", sa.String(length=64), nullable=False),
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("expires_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("nonce_hash", name=op.f("pk_challenge")),
    )
    op.create_table(
        "clock_sync",
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("load", sa.String(length=36), nullable=False),
        sa.Column("server_ms", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("at_ms", sa.BigInteger(), nullable=False),
        sa.Column("mono_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("device", "load", "server_ms", name=op.f("pk_clock_sync")),
    )
    op.create_table(
        "device",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("public_key", sa.String(length=130), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("person", sa.String(length=36), nullable=False),
        sa.Column("state", sa.String(length=16), nullable=False),
        sa.Column("check_digits", sa.String(length=4), server_default="", nullable=False),
        sa.Column("card", sa.Text(), server_default="", nullable=False),
        sa.Column("card_signature", sa.String(length=128), server_default="", nullable=False),
        sa.Column("made_ms", sa.BigInteger(), nullable=False),
        sa.Column("revoked_ms", sa.BigInteger(), nullable=True),
        sa.Column("last_heard_ms", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("holds_entries", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("holds_photos", sa.BigInteger(), server_default="0", nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_device")),
    )
    with op.batch_alter_table("device", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_device_public_key"), ["public_key"], unique=False)

    op.create_table(
        "drawing",
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("bytes", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("sha256", name=op.f("pk_drawing")),
    )
    op.create_table(
        "filed",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("file_hash", sa.String(length=64), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("seal_fingerprint", sa.String(length=64), nullable=False),
        sa.Column("filed_ms", sa.BigInteger(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_filed")),
    )
    with op.batch_alter_table("filed", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_filed_job"), ["job"], unique=False)

    op.create_table(
        "head",
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("hash", sa.String(length=64), nullable=False),
        sa.Column("seq", sa.BigInteger(), nullable=False),
        sa.Column("signature", sa.String(length=128), nullable=False),
        sa.Column("received_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("job", "device", "hash", name=op.f("pk_head")),
    )
    op.create_table(
        "hearing",
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("settled_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("device", name=op.f("pk_hearing")),
    )
    op.create_table(
        "job",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("count", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("shell", sa.Boolean(), server_default=sa.false(), nullable=False),
        sa.Column("order", sa.Text(), server_default="", nullable=False),
        sa.Column("vin", sa.Text(), server_default="", nullable=False),
        sa.Column("vehicle", sa.Text(), server_default="", nullable=False),
        sa.Column("part", sa.Text(), server_default="", nullable=False),
        sa.Column("made_ms", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("filed_ms", sa.BigInteger(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_job")),
    )
    op.create_table(
        "method",
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("yaml", sa.Text(), server_default="", nullable=False),
        sa.Column("imported_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_method")),
    )
    op.create_table(
        "office_log",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at_ms", sa.BigInteger(), nullable=False),
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_office_log")),
    )
    op.create_table(
        "pair_code",
        sa.Column("code_hash", sa.String(length=64), nullable=False),
        sa.Column("person", sa.String(length=36), nullable=False),
        sa.Column("expires_ms", sa.BigInteger(), nullable=False),
        sa.Column("spent", sa.Boolean(), server_default=sa.false(), nullable=False),
        sa.PrimaryKeyConstraint("code_hash", name=op.f("pk_pair_code")),
    )
    op.create_table(
        "people_change",
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("version", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people_change")),
    )
    op.create_table(
        "person",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("made_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_person")),
    )
    op.create_table(
        "photo",
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("bytes", sa.BigInteger(), nullable=False),
        sa.Column("type", sa.String(length=16), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("stored_ms", sa.BigInteger(), nullable=False),
        sa.Column("covered_ms", sa.BigInteger(), nullable=True),
        sa.PrimaryKeyConstraint("sha256", name=op.f("pk_photo")),
    )
    op.create_table(
        "photo_named",
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("thumb", sa.String(length=64), nullable=False),
        sa.PrimaryKeyConstraint("job", "sha256", "thumb", name=op.f("pk_photo_named")),
    )
    with op.batch_alter_table("photo_named", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_photo_named_sha256"), ["sha256"], unique=False)
        batch_op.create_index(batch_op.f("ix_photo_named_thumb"), ["thumb"], unique=False)

    op.create_table(
        "refused",
        sa.Column("hash_of_text", sa.String(length=64), nullable=False),
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("code", sa.String(length=32), nullable=False),
        sa.Column("message", sa.Text(), nullable=False),
        sa.Column("field", sa.Text(), nullable=False),
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("received_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("hash_of_text", name=op.f("pk_refused")),
    )
    with op.batch_alter_table("refused", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_refused_job"), ["job"], unique=False)

    op.create_table(
        "server_device",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("public_key", sa.String(length=130), nullable=False),
        sa.Column("private_pem", sa.Text(), nullable=False),
        sa.Column("card", sa.Text(), nullable=False),
        sa.Column("card_signature", sa.String(length=128), nullable=False),
        sa.Column("current", sa.Boolean(), nullable=False),
        sa.Column("made_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_server_device")),
    )
    op.create_table(
        "session",
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("device", sa.String(length=36), server_default="", nullable=False),
        sa.Column("person", sa.String(length=36), server_default="", nullable=False),
        sa.Column("expires_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("token_hash", name=op.f("pk_session")),
    )
    op.create_table(
        "store",
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("log", sa.String(length=36), nullable=False),
        sa.Column("made_ms", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_store")),
    )
    op.create_table(
        "upload",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("bytes", sa.BigInteger(), nullable=False),
        sa.Column("type", sa.String(length=16), nullable=False),
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("made_ms", sa.BigInteger(), nullable=False),
        sa.Column("whole", sa.Boolean(), server_default=sa.false(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_upload")),
    )
    op.create_table(
        "entry",
        sa.Column("hash", sa.String(length=64), nullable=False),
        sa.Column("job", sa.String(length=36), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("seq", sa.BigInteger(), nullable=False),
        sa.Column("prev", sa.String(length=64), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("received_ms", sa.BigInteger(), nullable=False),
        sa.Column("offset_ms", sa.BigInteger(), nullable=True),
        sa.Column("via_device", sa.String(length=36), nullable=False),
        sa.Column("signed", sa.Boolean(), server_default=sa.true(), nullable=False),
        sa.ForeignKeyConstraint(["job"], ["job.id"], name=op.f("fk_entry_job")),
        sa.PrimaryKeyConstraint("hash", name=op.f("pk_entry")),
        sa.UniqueConstraint("job", "number", name=op.f("uq_entry_job_number")),
    )
    with op.batch_alter_table("entry", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_entry_job_device_seq"), ["job", "device", "seq"], unique=False)
        batch_op.create_index(
            "ix_entry_unsigned",
            ["job", "device"],
            unique=False,
            sqlite_where=sa.text("signed IS 0"),
            postgresql_where=sa.text("signed IS false"),
        )

    op.create_table(
        "office_login",
        sa.Column("person", sa.String(length=36), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("password_hash", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.id"], name=op.f("fk_office_login_person")),
        sa.PrimaryKeyConstraint("person", name=op.f("pk_office_login")),
        sa.UniqueConstraint("name", name=op.f("uq_office_login_name")),
    )
    op.create_table(
        "person_pin",
        sa.Column("person", sa.String(length=36), nullable=False),
        sa.Column("verifier", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.id"], name=op.f("fk_person_pin_person")),
        sa.PrimaryKeyConstraint("person", name=op.f("pk_person_pin")),
    )
    op.create_table(
        "person_role",
        sa.Column("person", sa.String(length=36), nullable=False),
        sa.Column("role", sa.String(length=64), nullable=False),
        sa.Column("from_ms", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("until_ms", sa.BigInteger(), nullable=True),
        sa.Column("qualification", sa.Boolean(), server_default=sa.false(), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.id"], name=op.f("fk_person_role_person")),
        sa.PrimaryKeyConstraint("person", "role", "from_ms", name=op.f("pk_person_role")),
    )


def downgrade() -> None:
    """Never: a store is put back from its copy."""
    raise NotImplementedError
