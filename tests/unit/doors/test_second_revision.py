"""A store of the first revision, with a filed job in it, is copied and then taken to the second."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from alembic import command
from sqlalchemy import Engine, text

from bayleaf.adapters.database import open_engine, writing
from bayleaf.adapters.migrating import alembic_config, bring_up_to_date
from bayleaf.adapters.sql_filed import SqlFiled
from bayleaf.adapters.tables import metadata
from bayleaf.dossier_ports import Search, Sought

JOB, DOSSIER, MARA = "job-1", "dossier-1", "9e500000-0000-4000-8000-000000000001"
ENTRIES: tuple[tuple[int, str, dict[str, str]], ...] = (
    (1, "open", {}),
    (2, "lot", {"lot": "KL 77-B"}),
    (3, "file", {}),
)


@pytest.fixture
def old(tmp_path: Path) -> Iterator[Engine]:
    """As the first revision's program left it: one job, three entries, the last of them its filing."""
    engine = open_engine(f"sqlite:///{tmp_path / 'bayleaf.sqlite3'}")
    config = alembic_config()
    with writing(engine) as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "0001")
        connection.execute(
            text(
                'INSERT INTO job (id, count, "order", vin, part, filed_ms) '
                "VALUES (:job, 3, 'D-214', 'DEM0BAYL9EAF00214', 'Rear frame', 9)"
            ),
            {"job": JOB},
        )
        for number, kind, body in ENTRIES:
            _put_entry(connection, number, kind, body)
        connection.execute(
            text("INSERT INTO filed VALUES (:id, :job, 'hash-3', 'sha', 'seal', 9, '')"),
            {"id": DOSSIER, "job": JOB},
        )
    yield engine
    engine.dispose()


def _put_entry(connection: object, number: int, kind: str, body: dict[str, str]) -> None:
    by = MARA if kind == "lot" else "00000000-0000-0000-0000-000000000000"
    told = str({"by": by, "kind": kind, "body": body}).replace("'", '"')
    connection.execute(  # type: ignore[attr-defined]
        text(
            "INSERT INTO entry (hash, job, number, device, seq, prev, kind, text, received_ms, via_device) "
            "VALUES (:hash, :job, :number, 'd', :number, '', :kind, :text, 1, 'd')"
        ),
        {"hash": f"hash-{number}", "job": JOB, "number": number, "kind": kind, "text": told},
    )


def test_the_store_is_copied_whole_before_its_second_revision(old: Engine, tmp_path: Path) -> None:
    bring_up_to_date(old)
    with closing(sqlite3.connect(tmp_path / "bayleaf.before-0001.sqlite3")) as copy:
        assert copy.execute("SELECT version_num FROM alembic_version").fetchall() == [("0001",)]
        assert copy.execute("SELECT id, sha256 FROM filed").fetchall() == [(DOSSIER, "sha")]
        assert copy.execute("SELECT count(*) FROM entry").fetchone() == (3,)
    assert not (tmp_path / "bayleaf.before-0002.sqlite3").exists()


def test_what_was_filed_before_is_found_by_its_words_after(old: Engine) -> None:
    bring_up_to_date(old)
    register = SqlFiled(old)
    for word in ("d214", "214", "dem0bayl9eaf00214", "00214", "rear", "kl77b"):
        found = register.search(Search((Sought(word),)))
        assert [one.filed.id for one in found] == [DOSSIER], word
    assert register.search(Search((Sought("mara", (MARA,)),)))[0].by[0].field == "person"
    assert register.search(Search((Sought("xx"),))) == []


def test_a_dossier_that_holds_every_entry_is_not_late_after_it(old: Engine) -> None:
    bring_up_to_date(old)
    (line,) = SqlFiled(old).all()
    assert (line.file_number, line.late_ms, line.superseded_by) == (3, None, "")


def test_a_dossier_with_entries_after_it_is_late_after_it(old: Engine) -> None:
    with writing(old) as connection:
        connection.execute(text("UPDATE job SET count = 17"))
    bring_up_to_date(old)
    assert [line.id for line in SqlFiled(old).late()] == [DOSSIER]


def test_a_revision_that_fails_leaves_the_store_as_it_was(old: Engine) -> None:
    with writing(old) as connection:
        connection.execute(text("UPDATE entry SET text = 'no json' WHERE number = 2"))
    with pytest.raises(ValueError, match="Expecting value"):
        bring_up_to_date(old)
    with old.connect() as connection:
        assert connection.scalar(text("SELECT version_num FROM alembic_version")) == "0001"
        columns = connection.execute(text("SELECT name FROM pragma_table_info('filed')")).scalars().all()
    assert "late_ms" not in columns
    assert set(columns) < set(metadata.tables["filed"].columns.keys())
