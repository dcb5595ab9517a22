"""Brings a store's tables up to this program's revision at start, and refuses a newer store."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from alembic import command
from alembic.config import Config as AlembicConfig
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, text

from bayleaf.adapters.database import writing

FOLDER = Path(__file__).parent.parent / "migrations"
ADVISORY_LOCK = 7_305_106


class StoreFault(Exception):
    """A store that this program may not open."""


def bring_up_to_date(engine: Engine) -> None:
    """Run what is missing. A SQLite file that has a revision is copied beside itself first."""
    config = alembic_config()
    head = ScriptDirectory.from_config(config).get_current_head()
    found = revision_of(engine)
    if found == head:
        return
    _require_known(config, found)
    if found is not None:
        copy_first(engine, found)
    with writing(engine) as connection:
        _alone(connection)
        config.attributes["connection"] = connection
        command.upgrade(config, "head")


def alembic_config() -> AlembicConfig:
    """Alembic's settings without a file of them."""
    config = AlembicConfig()
    config.set_main_option("script_location", str(FOLDER).replace("%", "%%"))
    return config


def write_revision(engine: Engine, revision: str, message: str) -> None:
    """Write the file of a new revision: what the tables in the code have and the engine's store has not.

    `engine` holds a store of the newest revision. Read the file before you keep it, and name it after its
    message; `tests/unit/doors/test_migrating.py` fails until the revisions and the tables agree.
    """
    config = alembic_config()
    with engine.connect() as connection:
        config.attributes["connection"] = connection
        command.revision(config, message, autogenerate=True, rev_id=revision)


def copy_first(engine: Engine, revision: str) -> Path | None:
    """A whole copy of a SQLite store, named by its revision; None for another database."""
    file = engine.url.database
    if engine.dialect.name != "sqlite" or not file:
        return None
    copy = Path(file).with_name(f"{Path(file).stem}.before-{revision}.sqlite3")
    copy.unlink(missing_ok=True)
    with closing(engine.raw_connection()) as connection:  # SQLAlchemy would begin a transaction first
        connection.cursor().execute("VACUUM INTO ?", (str(copy),))
    return copy


def head_revision() -> str | None:
    """The newest revision that this program knows."""
    return ScriptDirectory.from_config(alembic_config()).get_current_head()


def revision_of(engine: Engine) -> str | None:
    """The store's revision; None before the first."""
    with engine.connect() as connection:
        return MigrationContext.configure(connection).get_current_revision()


def _require_known(config: AlembicConfig, found: str | None) -> None:
    known = {script.revision for script in ScriptDirectory.from_config(config).walk_revisions()}
    if found is not None and found not in known:
        raise StoreFault(
            f"The store has revision {found}, which this program does not know: a newer Bayleaf wrote it. "
            "Start that one, or put the store back from a backup of this version."
        )


def _alone(connection: Connection) -> None:
    """SQLite's writer is alone already; PostgreSQL needs a lock that all starting servers ask for."""
    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": ADVISORY_LOCK})
