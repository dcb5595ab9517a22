"""The filed are searched and paged, addenda are known, and the open jobs are found without the filed ones."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterator
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

WORD = sa.String(length=64).with_variant(sa.String(length=64, collation="C"), "postgresql")


def upgrade() -> None:
    _columns_and_indexes()
    op.create_table(
        "filed_word",
        sa.Column("dossier", sa.String(length=36), nullable=False),
        sa.Column("field", sa.String(length=8), nullable=False),
        sa.Column("word", WORD, nullable=False),
        sa.Column("said", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("dossier", "field", "word", name=op.f("pk_filed_word")),
    )
    op.create_index(op.f("ix_filed_word_word"), "filed_word", ["word"])
    _number_what_is_filed()
    _find_what_is_filed()


def _columns_and_indexes() -> None:
    op.add_column("filed", sa.Column("file_number", sa.BigInteger(), server_default="0", nullable=False))
    op.add_column("filed", sa.Column("supersedes", sa.String(length=36), server_default="", nullable=False))
    op.add_column(
        "filed", sa.Column("superseded_by", sa.String(length=36), server_default="", nullable=False)
    )
    op.add_column("filed", sa.Column("late_ms", sa.BigInteger(), nullable=True))
    _index("ix_filed_newest", "filed", ["filed_ms", "id"], "superseded_by = ''")
    _index("ix_filed_late", "filed", ["filed_ms", "id"], "late_ms IS NOT NULL")
    _index("ix_job_open", "job", ["made_ms", "id"], "filed_ms IS NULL")
    op.create_index(op.f("ix_job_order"), "job", ["order"])


def _index(name: str, table: str, columns: list[str], where: str) -> None:
    op.create_index(name, table, columns, sqlite_where=sa.text(where), postgresql_where=sa.text(where))


def _number_what_is_filed() -> None:
    """Where the `file` entry stands in the log; what stands after it makes its dossier late."""
    op.execute(
        "UPDATE filed SET file_number = COALESCE((SELECT number FROM entry WHERE hash = filed.file_hash), 0)"
    )
    op.execute(
        "UPDATE filed SET late_ms = filed_ms WHERE file_number > 0 AND file_number < "
        "(SELECT job.count FROM job WHERE job.id = filed.job)"
    )


def _find_what_is_filed() -> None:
    """The words of what was filed before there was a search, as the program writes them for what it files."""
    store = op.get_bind()
    table = sa.table("filed_word", *(sa.column(name) for name in ("dossier", "field", "word", "said")))
    lines = store.execute(sa.text("SELECT id, job FROM filed")).all()
    for line in lines:
        rows = {(field, word): said for field, word, said in _words(store, line.job)}
        found = [
            {"dossier": line.id, "field": field, "word": word, "said": said}
            for (field, word), said in sorted(rows.items())
        ]
        if found:
            store.execute(sa.insert(table), found)


def _words(store: sa.Connection, job: str) -> Iterator[tuple[str, str, str]]:
    told = store.execute(
        sa.text('SELECT "order", vin, part, vehicle FROM job WHERE id = :job'), {"job": job}
    ).mappings()
    for row in told:
        for field, said in row.items():
            for word in _parts(said):
                endings = len(word) - 3 if field == "vin" else 1
                yield from ((field, word[start:], said) for start in range(max(1, endings)))
    for text in store.scalars(sa.text("SELECT text FROM entry WHERE job = :job"), {"job": job}):
        yield from _of_entry(json.loads(text))


def _of_entry(entry: dict[str, Any]) -> Iterator[tuple[str, str, str]]:
    if entry["by"].strip("0-"):
        yield "person", entry["by"], ""
    if entry["kind"] == "lot":
        said = str(entry["body"].get("lot", ""))
        yield from (("lot", word, said) for word in _parts(said))


def _parts(text: str) -> Iterator[str]:
    folded = unicodedata.normalize("NFKC", text).casefold()
    for piece in (folded, *folded.split()):
        parts = re.findall(r"[^\W_]+", piece)
        yield from (word[:64] for word in ["".join(parts), *parts] if word)
