"""Whether an address may be that of a push service: it comes from a browser, so it is not trusted."""

from __future__ import annotations

import ipaddress
from typing import Final
from urllib.parse import urlsplit

LONGEST_ENDPOINT: Final = 1_000


def endpoint_fault(endpoint: str) -> str:
    """Why this is no address of a push service, empty if it may be one. Names are judged when connected."""
    try:
        parts = urlsplit(endpoint)
        host, _ = parts.hostname or "", parts.port
    except ValueError:
        return "is no address"
    if parts.scheme != "https" or not host or len(endpoint) > LONGEST_ENDPOINT or not endpoint.isascii():
        return "has to begin with https://"
    if parts.username is not None or parts.fragment:
        return "holds a login or a fragment"
    if host == "localhost" or host.endswith((".localhost", ".local", ".internal")):
        return "stays in this house"
    try:
        return "" if is_public(host) else "stays in this house"
    except ValueError:
        return ""


def is_public(address: str) -> bool:
    """Whether an IP address lies out in the internet; ValueError if it is none."""
    found = ipaddress.ip_address(address)
    mapped = found.ipv4_mapped if isinstance(found, ipaddress.IPv6Address) else None
    return (mapped or found).is_global and not (mapped or found).is_multicast
