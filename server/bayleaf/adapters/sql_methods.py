"""Methods and drawings in SQL."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from sqlalchemy import Engine, insert, select

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.tables import drawing, method


class SqlMethods:
    """The port MethodStore."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def texts(self, digests: Iterable[str]) -> Mapping[str, str]:
        """Canonical texts by digest."""
        wanted = list(digests)
        if not wanted:
            return {}
        with reading(self._engine) as connection:
            query = select(method.c.digest, method.c.text).where(method.c.digest.in_(wanted))
            return {row.digest: row.text for row in connection.execute(query)}

    def digests(self) -> Sequence[str]:
        """The newest import first."""
        with reading(self._engine) as connection:
            query = select(method.c.digest).order_by(method.c.imported_ms.desc(), method.c.digest)
            return connection.scalars(query).all()

    def put(self, digest: str, text: str, yaml: str, now_ms: int) -> bool:
        """Once."""
        with writing(self._engine) as connection:
            if connection.scalar(select(method.c.digest).where(method.c.digest == digest)) is not None:
                return False
            row = {"digest": digest, "text": text, "yaml": yaml, "imported_ms": now_ms}
            connection.execute(insert(method).values(**row))
            return True

    def yaml(self, digest: str) -> str:
        """As it was imported; empty for a method that a phone brought back."""
        with reading(self._engine) as connection:
            return connection.scalar(select(method.c.yaml).where(method.c.digest == digest)) or ""

    def imported_ms(self, digest: str) -> int:
        """0 where it is not here."""
        with reading(self._engine) as connection:
            return connection.scalar(select(method.c.imported_ms).where(method.c.digest == digest)) or 0

    def drawings_held(self, hashes: Iterable[str]) -> set[str]:
        """Those that are here."""
        wanted = list(hashes)
        with reading(self._engine) as connection:
            return set(connection.scalars(select(drawing.c.sha256).where(drawing.c.sha256.in_(wanted))))

    def drawing(self, sha256: str) -> bytes | None:
        """Its bytes."""
        with reading(self._engine) as connection:
            return connection.scalar(select(drawing.c.bytes).where(drawing.c.sha256 == sha256))

    def put_drawing(self, sha256: str, drawn: bytes) -> None:
        """Once."""
        with writing(self._engine) as connection:
            if connection.scalar(select(drawing.c.sha256).where(drawing.c.sha256 == sha256)) is None:
                connection.execute(insert(drawing).values(sha256=sha256, bytes=drawn))
