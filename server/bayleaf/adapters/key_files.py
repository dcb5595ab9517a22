"""The seal key and the secret: made at the first start, readable by the owner only, on disk before use."""

from __future__ import annotations

import os
import secrets
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from bayleaf.adapters.signatures import PrivateKey

OWNER_ONLY = 0o600
PUSH_KEY = "push.pem"
SECRET_BYTES = 32


class KeyFault(Exception):
    """A key file that is there and cannot be used."""


def seal_key(data: Path) -> PrivateKey:
    """The shop's seal key in `seal.pem`."""
    path = data / "seal.pem"
    pem = _kept(path, lambda: PrivateKey.new().pem().encode()).decode("ascii", "replace")
    try:
        return PrivateKey.of_pem(pem)
    except ValueError as error:
        raise KeyFault(f"{path}: not a seal key ({error}). Put the file back from a backup.") from error


def push_key(data: Path) -> str:
    """The key that push services know this server by (RFC 8292), as PEM, in `push.pem`."""
    path = data / PUSH_KEY
    pem = _kept(path, lambda: PrivateKey.new().pem().encode()).decode("ascii", "replace")
    try:
        PrivateKey.of_pem(pem)
    except ValueError as error:
        raise KeyFault(f"{path}: no key of calls ({error}). Put the file back from a backup.") from error
    return pem


def secret(data: Path) -> bytes:
    """The server's secret in `secret`, for keyed hashes."""
    found = _kept(data / "secret", lambda: secrets.token_hex(SECRET_BYTES).encode()).strip()
    if len(found) != 2 * SECRET_BYTES:
        raise KeyFault(f"{data / 'secret'}: found {len(found)} characters, it has {2 * SECRET_BYTES}.")
    return found


def _kept(path: Path, make: Callable[[], bytes]) -> bytes:
    if not path.exists():
        _write_once(path, make())
    return path.read_bytes()


def _write_once(path: Path, content: bytes) -> None:
    """Whole or not at all, and never over a file that another process made first."""
    part = path.with_name(f".{path.name}.{os.getpid()}")
    descriptor = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, OWNER_ONLY)
    with os.fdopen(descriptor, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    with suppress(FileExistsError):
        os.link(part, path)
    part.unlink()
    _sync_folder(path.parent)


def _sync_folder(folder: Path) -> None:
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
