"""The register of the filed, in SQL."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from sqlalchemy import ColumnElement, Engine, insert, select, update

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.tables import filed, job
from bayleaf.dossier_ports import FiledDossier


class SqlFiled:
    """The port FiledRegister."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def add(self, filed_dossier: FiledDossier) -> None:
        """The line, and the day on the job's row for the lists."""
        with writing(self._engine) as connection:
            connection.execute(insert(filed).values(asdict(filed_dossier)))
            filed_ms = filed_dossier.filed_ms
            connection.execute(update(job).where(job.c.id == filed_dossier.job).values(filed_ms=filed_ms))

    def all(self) -> Sequence[FiledDossier]:
        """The newest first."""
        return self._rows()

    def find(self, dossier: str) -> FiledDossier | None:
        """By the dossier's id."""
        return next(iter(self._rows(filed.c.id == dossier)), None)

    def of_job(self, job_id: str) -> Sequence[FiledDossier]:
        """The newest first."""
        return self._rows(filed.c.job == job_id)

    def _rows(self, *conditions: ColumnElement[bool]) -> list[FiledDossier]:
        chosen = select(filed).where(*conditions).order_by(filed.c.filed_ms.desc(), filed.c.id)
        with reading(self._engine) as connection:
            return [FiledDossier(**row) for row in connection.execute(chosen).mappings()]
