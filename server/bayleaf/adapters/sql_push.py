"""Subscriptions to calls, what was sent, and settings, in SQL."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import asdict

from sqlalchemy import Engine, Row, delete, insert, select, update

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.push_tables import push_sent, push_subscription, setting
from bayleaf.push_ports import Subscription

TABLE = push_subscription


class SqlSubscriptions:
    """The port Subscriptions."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def all(self) -> Sequence[Subscription]:
        """By device."""
        with reading(self._engine) as connection:
            return [_subscription(row) for row in connection.execute(select(TABLE).order_by(TABLE.c.device))]

    def find(self, device: str) -> Subscription | None:
        """That of a device."""
        with reading(self._engine) as connection:
            row = connection.execute(select(TABLE).where(TABLE.c.device == device)).one_or_none()
        return _subscription(row) if row is not None else None

    def put(self, put: Subscription) -> None:
        """Add or replace."""
        with writing(self._engine) as connection:
            same = (TABLE.c.device == put.device) | (TABLE.c.endpoint == put.endpoint)
            connection.execute(delete(TABLE).where(same))
            connection.execute(insert(TABLE).values(asdict(put)))

    def forget(self, device: str, endpoint: str = "") -> None:
        """Forget it."""
        ours = TABLE.c.device == device
        with writing(self._engine) as connection:
            connection.execute(
                delete(TABLE).where(ours & (TABLE.c.endpoint == endpoint) if endpoint else ours)
            )

    def note_trouble(self, device: str, trouble: str, now_ms: int) -> None:
        """Why the newest call was refused."""
        with writing(self._engine) as connection:
            row = {"trouble": trouble, "trouble_ms": now_ms if trouble else 0}
            connection.execute(update(TABLE).where(TABLE.c.device == device).values(row))

    def sent(self, device: str, keys: Collection[str]) -> set[str]:
        """Those that it was called for."""
        ours = (push_sent.c.device == device) & push_sent.c.key.in_(sorted(keys))
        with reading(self._engine) as connection:
            return set(connection.scalars(select(push_sent.c.key).where(ours)))

    def note_sent(self, device: str, key: str, now_ms: int) -> None:
        """Once is enough."""
        ours = (push_sent.c.device == device) & (push_sent.c.key == key)
        with writing(self._engine) as connection:
            if connection.execute(select(push_sent.c.key).where(ours)).first() is None:
                connection.execute(insert(push_sent).values(device=device, key=key, at_ms=now_ms))

    def sweep(self, before_ms: int) -> None:
        """Forget what was sent long ago."""
        with writing(self._engine) as connection:
            connection.execute(delete(push_sent).where(push_sent.c.at_ms < before_ms))


class SqlSettings:
    """The port Settings."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def get(self, name: str) -> str:
        """Empty where nobody set it."""
        with reading(self._engine) as connection:
            query = select(setting.c.value).where(setting.c.name == name)
            return str(connection.scalars(query).one_or_none() or "")

    def put(self, name: str, value: str) -> None:
        """Add or replace."""
        with writing(self._engine) as connection:
            connection.execute(delete(setting).where(setting.c.name == name))
            connection.execute(insert(setting).values(name=name, value=value))


def _subscription(row: Row[tuple[object, ...]]) -> Subscription:
    return Subscription(**row._mapping)  # noqa: SLF001  (SQLAlchemy's own name for the row as a mapping)
