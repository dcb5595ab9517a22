"""Devices and pair codes in SQL."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import Engine, Row, insert, select, update

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.door_tables import device, pair_code
from bayleaf.door_ports import Device, DeviceState, PairCode


class SqlDevices:
    """The port Devices."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def all(self) -> Sequence[Device]:
        """Every device that ever asked, the newest first."""
        query = select(device).order_by(device.c.made_ms.desc(), device.c.id)
        with reading(self._engine) as connection:
            return [_device(row) for row in connection.execute(query)]

    def find(self, device_id: str) -> Device | None:
        """One device."""
        with reading(self._engine) as connection:
            row = connection.execute(select(device).where(device.c.id == device_id)).one_or_none()
        return _device(row) if row is not None else None

    def by_key(self, public_key: str) -> Device | None:
        """The newest device that holds this key."""
        query = select(device).where(device.c.public_key == public_key).order_by(device.c.made_ms.desc())
        with reading(self._engine) as connection:
            row = connection.execute(query).first()
        return _device(row) if row is not None else None

    def put(self, put: Device) -> None:
        """Add, or replace what the doors know of it; what sync knows of it stays."""
        row = {
            "public_key": put.public_key,
            "name": put.name,
            "person": put.person,
            "state": str(put.state),
            "check_digits": put.check,
            "card": put.card,
            "card_signature": put.card_signature,
            "made_ms": put.claimed_ms,
        }
        with writing(self._engine) as connection:
            if connection.execute(update(device).where(device.c.id == put.id).values(row)).rowcount == 0:
                connection.execute(insert(device).values(id=put.id, **row))

    def revoke(self, device_id: str, now_ms: int) -> None:
        """Its card no longer lets it in, from now on."""
        row = {"state": str(DeviceState.REVOKED), "check_digits": "", "revoked_ms": now_ms}
        with writing(self._engine) as connection:
            connection.execute(update(device).where(device.c.id == device_id).values(row))

    def heard(self, device_id: str, now_ms: int, holds_entries: int, holds_photos: int) -> None:
        """It has synced, and says what it still holds."""
        row = {"last_heard_ms": now_ms, "holds_entries": holds_entries, "holds_photos": holds_photos}
        with writing(self._engine) as connection:
            connection.execute(update(device).where(device.c.id == device_id).values(row))


class SqlPairCodes:
    """The port PairCodes."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def add(self, code: PairCode) -> None:
        """Keep a code, by its hash."""
        row = {"code_hash": code.code_hash, "person": code.person, "expires_ms": code.expires_ms}
        with writing(self._engine) as connection:
            connection.execute(insert(pair_code).values(spent=code.spent, **row))

    def find(self, code_hash: str) -> PairCode | None:
        """The code of this hash."""
        with reading(self._engine) as connection:
            row = connection.execute(
                select(pair_code).where(pair_code.c.code_hash == code_hash)
            ).one_or_none()
        return (
            PairCode(row.code_hash, row.person, row.expires_ms, bool(row.spent)) if row is not None else None
        )

    def spend(self, code_hash: str) -> bool:
        """True for exactly one caller, by the row count of one conditional update."""
        unspent = (pair_code.c.code_hash == code_hash) & pair_code.c.spent.is_(False)
        with writing(self._engine) as connection:
            return connection.execute(update(pair_code).where(unspent).values(spent=True)).rowcount == 1


def _device(row: Row[tuple[object, ...]]) -> Device:
    found = row._mapping  # noqa: SLF001  (SQLAlchemy's own name for the row as a mapping)
    return Device(
        id=found["id"],
        public_key=found["public_key"],
        name=found["name"],
        person=found["person"],
        state=DeviceState(found["state"]),
        check=found["check_digits"],
        card=found["card"],
        card_signature=found["card_signature"],
        last_heard_ms=found["last_heard_ms"],
        holds_entries=found["holds_entries"],
        holds_photos=found["holds_photos"],
        claimed_ms=found["made_ms"],
    )
