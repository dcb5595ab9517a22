"""Random choices from the operating system."""

from __future__ import annotations

import secrets
import uuid


class SystemChance:
    """The port Chance."""

    def token(self) -> str:
        """256 bits, as text for a cookie."""
        return secrets.token_urlsafe(32)

    def salt(self) -> str:
        """128 bits, hex."""
        return secrets.token_hex(16)

    def code(self, alphabet: str, length: int) -> str:
        """`length` letters of the alphabet, each as likely as any."""
        return "".join(secrets.choice(alphabet) for _ in range(length))

    def uuid(self) -> str:
        """A UUID of version 4."""
        return str(uuid.uuid4())
