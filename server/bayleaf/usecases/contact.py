"""The address that a push service may write to about our calls: a setting, and what is wrong with it."""

from __future__ import annotations

import re
from typing import Final, Literal
from urllib.parse import urlsplit

from bayleaf.push_ports import Settings
from bayleaf.usecases.refusal import Refusal

CONTACT: Final = "push_contact"
LONGEST: Final = 200
# RFC 2606, RFC 6761, RFC 6762, RFC 9476: names that nobody can be reached by.
RESERVED: Final = ("localhost", "local", "invalid", "example", "test", "alt", "internal")
RESERVED_SECOND: Final = ("home.arpa", "example.com", "example.net", "example.org")
LABEL: Final = re.compile(r"[a-z0-9]([a-z0-9-]*[a-z0-9])?")

Fault = Literal["", "missing", "scheme", "address", "reserved"]
SENTENCES: Final[dict[Fault, str]] = {
    "missing": "contact: no address is set; give mailto:somebody@ your domain, or a page with https://.",
    "scheme": "contact: allowed is an address that begins with mailto: or https://.",
    "address": "contact: no usable address; give mailto:name@domain or https://domain/page.",
    "reserved": "contact: that domain is reserved and reaches nobody; push services refuse it.",
}


def contact_of(settings: Settings) -> str:
    """As the office set it."""
    return settings.get(CONTACT)


def set_contact(settings: Settings, contact: str) -> str:
    """Keep it. Empty takes it away: then nobody is called."""
    given = contact.strip()
    if given and "@" in given and ":" not in given:
        given = f"mailto:{given}"
    fault = contact_fault(given) if given else ""
    if fault:
        raise Refusal("broken_contact", SENTENCES[fault], "contact")
    settings.put(CONTACT, given)
    return given


def contact_fault(contact: str) -> Fault:
    """What a push service would refuse it for; RFC 8292 section 2.1 asks for a mailto: or https: URI."""
    if not contact:
        return "missing"
    scheme, _, rest = contact.partition(":")
    if scheme.lower() not in ("mailto", "https"):
        return "scheme"
    host = _mail_host(rest) if scheme.lower() == "mailto" else _page_host(contact)
    labels = host.lower().split(".")
    if len(contact) > LONGEST or not contact.isascii() or not all(LABEL.fullmatch(one) for one in labels):
        return "address"
    if labels[-1] in RESERVED or ".".join(labels[-2:]) in RESERVED_SECOND:
        return "reserved"
    return "address" if len(labels) == 1 or labels[-1].isdigit() else ""


def _mail_host(address: str) -> str:
    name, at, host = address.partition("@")
    return host if name and at and not re.search(r"[\s?&,<>]", address) else ""


def _page_host(address: str) -> str:
    try:
        return urlsplit(address).hostname or ""
    except ValueError:
        return ""
