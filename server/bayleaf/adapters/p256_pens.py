"""The keys of the server's own devices."""

from __future__ import annotations

from functools import lru_cache

from bayleaf.adapters.signatures import PrivateKey


class P256Pens:
    """The port Pens."""

    def make(self) -> tuple[str, str]:
        """Public key and PEM of a new key."""
        key = PrivateKey.new()
        return key.public_key, key.pem()

    def sign(self, private_pem: str, text: str) -> str:
        """Raw r||s in hex."""
        return _key(private_pem).sign(text)


@lru_cache(maxsize=16)
def _key(private_pem: str) -> PrivateKey:
    """Reading a PEM costs more than signing with it."""
    return PrivateKey.of_pem(private_pem)
