"""PIN verifiers: what a phone needs to check a second person's PIN without the network.

What it is worth: a PIN of 4 to 8 digits keeps a colleague from signing in somebody else's name in passing.
It is no secret from whoever holds a paired phone's storage: the verifier is shipped to every phone, and ten
thousand PINs are tried against it in minutes, whatever the number of iterations. So a countersign by PIN
says `auth: pin` in the record and proves no more than that; one's own paired phone (`own`) is stronger.
"""

from __future__ import annotations

import hashlib
import re

from bayleaf.door_ports import PinVerifier
from bayleaf.usecases.refusal import Refusal

ALGORITHM = "PBKDF2-SHA256"  # in WebCrypto on every phone, as argon2 is not
ITERATIONS = 200_000  # about a quarter of a second on a slow phone
PIN = re.compile(r"[0-9]{4,8}")


def pin_verifier(pin: str, salt: str, iterations: int = ITERATIONS) -> PinVerifier:
    """The verifier of `pin`; `salt` is hex. RFC 8018 section 5.2, output of 32 bytes."""
    if not PIN.fullmatch(pin):
        raise Refusal("broken_pin", f"pin: found {len(pin)} characters, allowed are 4 to 8 digits.", "pin")
    return PinVerifier(ALGORITHM, iterations, salt, _derive(pin, salt, iterations))


def is_pin(verifier: PinVerifier, pin: str) -> bool:
    """Whether `pin` is the one."""
    return _derive(pin, verifier.salt, verifier.iterations) == verifier.verifier


def _derive(pin: str, salt: str, iterations: int) -> str:
    return hashlib.pbkdf2_hmac("sha256", pin.encode(), bytes.fromhex(salt), iterations).hex()
