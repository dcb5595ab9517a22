"""Heat zones, plans and pins in SQL."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import asdict, replace
from typing import Any

from sqlalchemy import Connection, Engine, and_, delete, insert, select, update

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.heat_tables import heat_plan, heat_zone, job_heat_plan
from bayleaf.heat_ports import (
    CANCELLED,
    FAILED,
    RUNNING,
    UNDER_WAY,
    WAITING,
    HeatZone,
    PinnedPlan,
    Planned,
    PlanRow,
    done_fields,
)

ROW = tuple(column for column in heat_plan.c if column.name not in ("answer", "response", "field"))


class SqlHeatPlans:
    """The port HeatPlans."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def zones(self) -> Sequence[HeatZone]:
        """The newest first."""
        with reading(self._engine) as connection:
            query = select(heat_zone).order_by(heat_zone.c.added_ms.desc(), heat_zone.c.digest)
            return [HeatZone(**row) for row in connection.execute(query).mappings()]

    def zone(self, digest: str) -> HeatZone | None:
        """By its digest."""
        with reading(self._engine) as connection:
            query = select(heat_zone).where(heat_zone.c.digest == digest)
            row = connection.execute(query).mappings().one_or_none()
            return None if row is None else HeatZone(**row)

    def names(self, digests: Collection[str]) -> Mapping[str, str]:
        """By digest."""
        query = select(heat_zone.c.digest, heat_zone.c.name).where(heat_zone.c.digest.in_(sorted(digests)))
        with reading(self._engine) as connection:
            return {row.digest: row.name for row in connection.execute(query)}

    def add_zone(self, zone: HeatZone) -> bool:
        """Once."""
        with writing(self._engine) as connection:
            known = select(heat_zone.c.digest).where(heat_zone.c.digest == zone.digest)
            if connection.scalar(known) is not None:
                return False
            connection.execute(insert(heat_zone).values(asdict(zone)))
            return True

    def remove_zone(self, digest: str) -> None:
        """Its plans too."""
        with writing(self._engine) as connection:
            connection.execute(delete(heat_plan).where(heat_plan.c.digest == digest))
            connection.execute(delete(heat_zone).where(heat_zone.c.digest == digest))

    def plans(self, digests: Collection[str] | None = None) -> Sequence[PlanRow]:
        """The oldest asked first."""
        query = select(*ROW).order_by(heat_plan.c.asked_ms, heat_plan.c.digest, heat_plan.c.model)
        if digests is not None:
            query = query.where(heat_plan.c.digest.in_(sorted(digests)))
        with reading(self._engine) as connection:
            return [PlanRow(**row) for row in connection.execute(query).mappings()]

    def plan(self, digest: str, model: str) -> PlanRow | None:
        """By zone and model."""
        with reading(self._engine) as connection:
            return _row(connection, digest, model)

    def ask(self, digest: str, model: str, now_ms: int) -> PlanRow:
        """What is there is not asked for again."""
        with writing(self._engine) as connection:
            found = _row(connection, digest, model)
            if found is not None and found.state not in (FAILED, CANCELLED):
                return found
            asked = PlanRow(digest, model, WAITING, now_ms)
            connection.execute(delete(heat_plan).where(_is(digest, model)))
            connection.execute(insert(heat_plan).values(asdict(asked)))
            return asked

    def cancel(self, digest: str, model: str, now_ms: int) -> PlanRow | None:
        """Whoever computes it is told at the next progress."""
        with writing(self._engine) as connection:
            under_way = _is(digest, model) & heat_plan.c.state.in_(UNDER_WAY)
            connection.execute(update(heat_plan).where(under_way).values(state=CANCELLED, done_ms=now_ms))
            return _row(connection, digest, model)

    def take(self, model: str) -> PlanRow | None:
        """The first in order of asking."""
        with writing(self._engine) as connection:
            waits = select(*ROW).where(heat_plan.c.model == model, heat_plan.c.state == WAITING)
            first = waits.order_by(heat_plan.c.asked_ms, heat_plan.c.digest).limit(1)
            row = connection.execute(first).mappings().one_or_none()
            if row is None:
                return None
            taken = replace(PlanRow(**row), state=RUNNING)
            connection.execute(update(heat_plan).where(_is(taken.digest, model)).values(state=RUNNING))
            return taken

    def progress(self, digest: str, model: str, doing: str, share_permille: int) -> bool:
        """Kept only while it runs."""
        with writing(self._engine) as connection:
            told = update(heat_plan).where(_runs(digest, model))
            found = connection.execute(told.values(doing=doing, share_permille=share_permille))
            return found.rowcount == 1

    def finish(self, digest: str, model: str, planned: Planned, now_ms: int) -> None:
        """Everything at once."""
        made = {**asdict(planned), **done_fields(planned, now_ms)}
        with writing(self._engine) as connection:
            connection.execute(update(heat_plan).where(_runs(digest, model)).values(made))

    def fail(self, digest: str, model: str, fault: str, now_ms: int) -> None:
        """With the reason."""
        with writing(self._engine) as connection:
            failed = {"state": FAILED, "fault": fault, "done_ms": now_ms}
            connection.execute(update(heat_plan).where(_runs(digest, model)).values(failed))

    def put_back(self, model: str) -> int:
        """What was under way for another model waits for this one."""
        with writing(self._engine) as connection:
            query = select(*ROW).where(heat_plan.c.state.in_(UNDER_WAY))
            rows = [PlanRow(**row) for row in connection.execute(query).mappings()]
            back = [row for row in rows if row.state == RUNNING or row.model != model]
            for row in back:
                connection.execute(delete(heat_plan).where(_is(row.digest, row.model)))
                if _row(connection, row.digest, model) is None:
                    waits = asdict(PlanRow(row.digest, model, WAITING, row.asked_ms))
                    connection.execute(insert(heat_plan).values(waits))
            return len(back)

    def answer(self, digest: str, model: str) -> str:
        """The JSON."""
        with reading(self._engine) as connection:
            return connection.scalar(select(heat_plan.c.answer).where(_is(digest, model))) or ""

    def field(self, digest: str, model: str) -> bytes:
        """Gzipped."""
        with reading(self._engine) as connection:
            return connection.scalar(select(heat_plan.c.field).where(_is(digest, model))) or b""

    def response(self, sha256: str) -> bytes:
        """Gzipped."""
        with reading(self._engine) as connection:
            query = select(heat_plan.c.response).where(heat_plan.c.response_sha256 == sha256).limit(1)
            return connection.scalar(query) or b""

    def pins(self, jobs: Collection[str] | None = None) -> Sequence[PinnedPlan]:
        """The oldest first."""
        query = select(job_heat_plan).order_by(job_heat_plan.c.pinned_ms, job_heat_plan.c.id)
        if jobs is not None:
            query = query.where(job_heat_plan.c.job.in_(sorted(jobs)))
        with reading(self._engine) as connection:
            return [PinnedPlan(**row) for row in connection.execute(query).mappings()]

    def pin(self, pinned: PinnedPlan) -> None:
        """The one before ends at the same moment."""
        with writing(self._engine) as connection:
            _end(connection, pinned.job, pinned.method, pinned.zone, pinned.pinned_ms)
            connection.execute(insert(job_heat_plan).values(asdict(pinned)))

    def unpin(self, job: str, method: str, zone: str, now_ms: int) -> bool:
        """It stays known as what the job used until then."""
        with writing(self._engine) as connection:
            return _end(connection, job, method, zone, now_ms) > 0


def _is(digest: str, model: str) -> Any:
    return and_(heat_plan.c.digest == digest, heat_plan.c.model == model)


def _runs(digest: str, model: str) -> Any:
    return and_(_is(digest, model), heat_plan.c.state == RUNNING)


def _row(connection: Connection, digest: str, model: str) -> PlanRow | None:
    row = connection.execute(select(*ROW).where(_is(digest, model))).mappings().one_or_none()
    return None if row is None else PlanRow(**row)


def _end(connection: Connection, job: str, method: str, zone: str, now_ms: int) -> int:
    table = job_heat_plan.c
    held = and_(table.job == job, table.method == method, table.zone == zone, table.ended_ms == 0)
    return connection.execute(update(job_heat_plan).where(held).values(ended_ms=now_ms)).rowcount
