"""A store is brought up to date at start: new, current, older (copied first), and newer (refused)."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Engine, text

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.migrating import StoreFault, bring_up_to_date, copy_first
from bayleaf.adapters.tables import metadata


def opened(folder: Path) -> Engine:
    return open_engine(f"sqlite:///{folder / 'bayleaf.sqlite3'}")


def test_a_new_store_has_every_table_of_the_program(tmp_path: Path) -> None:
    engine = opened(tmp_path)
    bring_up_to_date(engine)
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_server_default": False})
        assert compare_metadata(context, metadata) == []
    engine.dispose()


def test_a_current_store_is_left_alone(tmp_path: Path) -> None:
    engine = opened(tmp_path)
    bring_up_to_date(engine)
    before = sorted(path.name for path in tmp_path.iterdir())
    bring_up_to_date(engine)
    engine.dispose()
    assert "bayleaf.sqlite3" in before
    assert not [name for name in before if "before" in name]


def test_a_newer_store_is_refused_and_not_touched(tmp_path: Path) -> None:
    engine = opened(tmp_path)
    bring_up_to_date(engine)
    with engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    with pytest.raises(StoreFault, match="newer Bayleaf"):
        bring_up_to_date(engine)
    with engine.connect() as connection:
        assert connection.scalar(text("SELECT version_num FROM alembic_version")) == "9999"
    engine.dispose()


def test_the_copy_before_a_migration_is_whole_and_named_by_its_revision(tmp_path: Path) -> None:
    engine = opened(tmp_path)
    bring_up_to_date(engine)
    with engine.begin() as connection:
        connection.execute(text("INSERT INTO person (id, name, made_ms) VALUES ('p', 'Tess', 1)"))
    copy = copy_first(engine, "0001")
    engine.dispose()
    assert copy == tmp_path / "bayleaf.before-0001.sqlite3"
    with sqlite3.connect(copy) as copied:
        assert copied.execute("SELECT name FROM person").fetchall() == [("Tess",)]
    copied.close()
