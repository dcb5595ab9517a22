"""Office passwords by argon2id, with the parameters that argon2-cffi recommends."""

from __future__ import annotations

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError


class Argon2Passwords:
    """The port Passwords."""

    def __init__(self, hasher: PasswordHasher | None = None) -> None:
        self._hasher = hasher or PasswordHasher()
        self._nobody = self._hasher.hash("nobody has this password")

    def hash(self, password: str) -> str:
        """An argon2id hash with its own salt."""
        return self._hasher.hash(password)

    def matches(self, argon2: str, password: str) -> bool:
        """Whether this password made this hash."""
        try:
            return self._hasher.verify(argon2, password)
        except (VerificationError, InvalidHashError):
            return False

    def waste_time(self, password: str) -> None:
        """One verification of nobody's hash."""
        self.matches(self._nobody, password)
