"""Logins, nonces and wrong tries in SQL, all by keyed hash."""

from __future__ import annotations

from sqlalchemy import Engine, delete, func, insert, select, update

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.door_tables import attempt, challenge, session
from bayleaf.door_ports import Session

ATTEMPTS_KEPT_MS = 24 * 60 * 60_000


class SqlSessions:
    """The port Sessions."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def add(self, opened: Session) -> None:
        """Keep a login."""
        row = {"token_hash": opened.token_hash, "device": opened.device, "person": opened.person}
        with writing(self._engine) as connection:
            connection.execute(insert(session).values(expires_ms=opened.expires_ms, **row))

    def find(self, token_hash: str) -> Session | None:
        """The login of this token, expired or not."""
        with reading(self._engine) as connection:
            row = connection.execute(select(session).where(session.c.token_hash == token_hash)).one_or_none()
        return Session(row.token_hash, row.device, row.person, row.expires_ms) if row is not None else None

    def extend(self, token_hash: str, expires_ms: int) -> None:
        """Keep it open longer."""
        with writing(self._engine) as connection:
            connection.execute(
                update(session).where(session.c.token_hash == token_hash).values(expires_ms=expires_ms)
            )

    def end(self, token_hash: str) -> None:
        """Forget one login."""
        with writing(self._engine) as connection:
            connection.execute(delete(session).where(session.c.token_hash == token_hash))

    def end_of_person(self, person: str) -> None:
        """Forget every login of an office person."""
        with writing(self._engine) as connection:
            connection.execute(delete(session).where(session.c.person == person))

    def sweep(self, now_ms: int) -> None:
        """Forget what has expired."""
        with writing(self._engine) as connection:
            connection.execute(delete(session).where(session.c.expires_ms < now_ms))
            connection.execute(delete(challenge).where(challenge.c.expires_ms < now_ms))

    def add_nonce(self, nonce_hash: str, device: str, expires_ms: int) -> None:
        """Keep a nonce that waits for its signature."""
        with writing(self._engine) as connection:
            connection.execute(
                insert(challenge).values(nonce_hash=nonce_hash, device=device, expires_ms=expires_ms)
            )

    def take_nonce(self, nonce_hash: str, device: str, now_ms: int) -> bool:
        """True once, for that device, before it expires."""
        live = (
            (challenge.c.nonce_hash == nonce_hash)
            & (challenge.c.device == device)
            & (challenge.c.expires_ms > now_ms)
        )
        with writing(self._engine) as connection:
            return connection.execute(delete(challenge).where(live)).rowcount == 1


class SqlAttempts:
    """The port Attempts."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def count(self, key: str, since_ms: int) -> int:
        """Wrong tries of this key since then."""
        query = select(func.count()).select_from(attempt)
        with reading(self._engine) as connection:
            return connection.scalar(query.where(attempt.c.key == key, attempt.c.at_ms > since_ms)) or 0

    def note(self, key: str, now_ms: int) -> None:
        """One more."""
        with writing(self._engine) as connection:
            connection.execute(delete(attempt).where(attempt.c.at_ms < now_ms - ATTEMPTS_KEPT_MS))
            connection.execute(insert(attempt).values(key=key, at_ms=now_ms))

    def forget(self, key: str) -> None:
        """They got it right."""
        with writing(self._engine) as connection:
            connection.execute(delete(attempt).where(attempt.c.key == key))
