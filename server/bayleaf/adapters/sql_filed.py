"""The register of the filed, in SQL."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import asdict, replace

from sqlalchemy import ColumnElement, Connection, Engine, Select, and_, delete, insert, or_, select, update

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.tables import filed, filed_word, job
from bayleaf.dossier_ports import FiledDossier, Found, Search, SearchWord, Sought

PERSON = "person"
# Words compare by their bytes, and no letter or digit comes after this.
LAST = "\U0010ffff"


class SqlFiled:
    """The port FiledRegister."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def add(self, filed_dossier: FiledDossier, words: Iterable[SearchWord]) -> None:
        """The job's row first: on PostgreSQL that keeps other writers out of the job until the end."""
        mine = job.c.id == filed_dossier.job
        with writing(self._engine) as connection:
            connection.execute(update(job).where(mine).values(filed_ms=filed_dossier.filed_ms))
            count = connection.scalar(select(job.c.count).where(mine)) or 0
            late_ms = filed_dossier.filed_ms if count > filed_dossier.file_number else None
            connection.execute(insert(filed).values(asdict(replace(filed_dossier, late_ms=late_ms))))
            rows = [{"dossier": filed_dossier.id, **word._asdict()} for word in words]
            if rows:
                connection.execute(insert(filed_word), rows)
            if filed_dossier.supersedes:
                _supersede(connection, filed_dossier)

    def all(self) -> Sequence[FiledDossier]:
        """The newest first."""
        return self._rows()

    def find(self, dossier: str) -> FiledDossier | None:
        """By the dossier's id."""
        return next(iter(self._rows(filed.c.id == dossier)), None)

    def of_job(self, job_id: str) -> Sequence[FiledDossier]:
        """The newest first."""
        return self._rows(filed.c.job == job_id)

    def late(self) -> Sequence[FiledDossier]:
        """By an index that holds these alone."""
        return self._rows(filed.c.late_ms.is_not(None))

    def search(self, search: Search) -> Sequence[Found]:
        """The newest dossier of each job, the newest first."""
        with reading(self._engine) as connection:
            chosen = _newest_first(_chosen(connection, search)).limit(search.most)
            lines = [FiledDossier(**row) for row in connection.execute(chosen).mappings()]
            by = _found_by(connection, [one.id for one in lines], search.words)
        return [Found(one, tuple(by[one.id])) for one in lines]

    def _rows(self, *conditions: ColumnElement[bool]) -> list[FiledDossier]:
        with reading(self._engine) as connection:
            rows = connection.execute(_newest_first(select(filed).where(*conditions)))
            return [FiledDossier(**row) for row in rows.mappings()]


def _newest_first(chosen: Select[tuple[object, ...]]) -> Select[tuple[object, ...]]:
    return chosen.order_by(filed.c.filed_ms.desc(), filed.c.id.desc())


def _supersede(connection: Connection, by: FiledDossier) -> None:
    """The line before stays as it was sealed; it only learns of its addendum, which is found in its place."""
    before = filed.c.id == by.supersedes
    connection.execute(update(filed).where(before).values(superseded_by=by.id, late_ms=None))
    connection.execute(delete(filed_word).where(filed_word.c.dossier == by.supersedes))


def _chosen(connection: Connection, search: Search) -> Select[tuple[object, ...]]:
    chosen = select(filed).where(
        filed.c.superseded_by == "", filed.c.filed_ms.between(search.from_ms, search.until_ms)
    )
    for sought in search.words:
        chosen = chosen.where(filed.c.id.in_(select(filed_word.c.dossier).where(_is_sought(sought))))
    if search.after:
        at = connection.scalar(select(filed.c.filed_ms).where(filed.c.id == search.after)) or 0
        older = and_(filed.c.filed_ms == at, filed.c.id < search.after)
        chosen = chosen.where(or_(filed.c.filed_ms < at, older))
    return chosen


def _is_sought(sought: Sought) -> ColumnElement[bool]:
    """A person is found by id alone: the letters of an id are nobody's name."""
    word = filed_word.c.word
    begins = and_(
        word >= sought.begins, word < sought.begins + LAST, filed_word.c.field != PERSON
    )  # by the index on words
    if not sought.people:
        return begins
    return or_(begins, and_(word.in_(sought.people), filed_word.c.field == PERSON))


def _found_by(
    connection: Connection, dossiers: Sequence[str], words: Sequence[Sought]
) -> defaultdict[str, list[SearchWord]]:
    by: defaultdict[str, list[SearchWord]] = defaultdict(list)
    if dossiers and words:
        matching = or_(*(_is_sought(one) for one in words))
        chosen = select(filed_word).where(filed_word.c.dossier.in_(dossiers), matching)
        for row in connection.execute(chosen.order_by(filed_word.c.field, filed_word.c.word)):
            by[row.dossier].append(SearchWord(row.field, row.word, row.said))
    return by
