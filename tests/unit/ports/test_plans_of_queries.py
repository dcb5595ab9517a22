"""What the board and the list of the filed ask of SQLite goes by an index: filed jobs cost nothing."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine, Executable, Select, TextClause, text

from bayleaf.adapters import sql_log_queries as queries
from bayleaf.adapters.database import open_engine
from bayleaf.adapters.tables import metadata

LATE = text("SELECT * FROM filed WHERE late_ms IS NOT NULL ORDER BY filed_ms DESC, id DESC")
PAGE = text(
    "SELECT * FROM filed WHERE superseded_by = '' AND filed_ms BETWEEN 0 AND 9 "
    "ORDER BY filed_ms DESC, id DESC LIMIT 41"
)
BY_WORD = text(
    "SELECT * FROM filed WHERE superseded_by = '' AND id IN "
    "(SELECT dossier FROM filed_word WHERE word >= 'kl77' AND word < 'kl77~') LIMIT 41"
)


def written(query: Select[Any]) -> TextClause:
    """With its values in place."""
    return text(str(query).replace(":most", "9").replace(":like", "'%k%'").replace("\\", "!"))


@pytest.fixture
def engine(tmp_path: Path) -> Iterator[Engine]:
    made = open_engine(f"sqlite:///{tmp_path / 'store.sqlite3'}")
    metadata.create_all(made)
    yield made
    made.dispose()


def plan(engine: Engine, query: Executable) -> str:
    with engine.connect() as connection:
        rows = connection.execute(text(f"EXPLAIN QUERY PLAN {query}"))
        return " / ".join(str(row.detail) for row in rows)


@pytest.mark.parametrize(
    ("query", "index"),
    [
        (queries.OPEN_JOBS, "ix_job_open"),
        (written(queries.OF_LOTS), "ix_entry_lots"),
        (written(queries.LOTS_NAMED), "ix_entry_lots"),
        (written(queries.PINNING), "ix_entry_pins"),
        (LATE, "ix_filed_late"),
        (PAGE, "ix_filed_newest"),
        (BY_WORD, "ix_filed_word_word"),
    ],
)
def test_the_query_goes_by_its_index(engine: Engine, query: Executable, index: str) -> None:
    found = plan(engine, query)
    assert index in found
    assert "TEMP B-TREE" not in found


def test_an_order_number_is_looked_up(engine: Engine) -> None:
    found = plan(engine, text("SELECT * FROM job WHERE \"order\" = 'A'"))
    assert "ix_job_order" in found
