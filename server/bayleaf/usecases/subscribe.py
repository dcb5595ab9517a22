"""Keeps what a device wants to be called for."""

from __future__ import annotations

import base64
import binascii
from dataclasses import replace
from typing import Final

from bayleaf.door_ports import Keys
from bayleaf.push_ports import Subscription, Subscriptions
from bayleaf.usecases.push_endpoint import endpoint_fault
from bayleaf.usecases.refusal import Refusal

AUTH_BYTES: Final = 16


def subscribe(kept: Subscriptions, keys: Keys, given: Subscription) -> None:
    """The same address again changes what it is called for; trouble stays told until a call is taken."""
    fault = endpoint_fault(given.endpoint)
    if fault:
        raise Refusal("broken_endpoint", f"endpoint: {fault}; give a push service's address.", "endpoint")
    if not keys.is_public_key(_bytes(given.p256dh, "p256dh").hex()):
        raise Refusal("broken_endpoint", "p256dh: found no point on P-256.", "p256dh")
    if len(_bytes(given.auth, "auth")) != AUTH_BYTES:
        raise Refusal("broken_endpoint", f"auth: allowed are {AUTH_BYTES} bytes.", "auth")
    old = kept.find(given.device)
    same = old is not None and old.endpoint == given.endpoint
    kept.put(replace(given, trouble=old.trouble, trouble_ms=old.trouble_ms) if old and same else given)


def _bytes(text: str, field: str) -> bytes:
    try:
        return base64.b64decode(text + "=" * (-len(text) % 4), altchars=b"-_", validate=True)
    except (binascii.Error, ValueError) as error:
        raise Refusal("broken_endpoint", f"{field}: found no base64url.", field) from error
