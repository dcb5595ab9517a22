"""The office's log in SQL."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from sqlalchemy import Engine, insert, select

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.tables import office_log
from bayleaf.ports import OfficeLine


class SqlOfficeLog:
    """The port OfficeLog."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def add(self, line: OfficeLine) -> None:
        """At the end."""
        with writing(self._engine) as connection:
            connection.execute(insert(office_log).values(**asdict(line)))

    def lines(self, limit: int) -> Sequence[OfficeLine]:
        """The newest first."""
        columns = (office_log.c.at_ms, office_log.c.device, office_log.c.job, office_log.c.text)
        with reading(self._engine) as connection:
            query = select(*columns).order_by(office_log.c.id.desc()).limit(limit)
            return [OfficeLine(*row) for row in connection.execute(query)]
