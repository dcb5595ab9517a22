"""Which bundle a phone should hold: changes with every person and every method, and with the store."""

from __future__ import annotations

from bayleaf.canonical.digest import text_hash
from bayleaf.usecases.office import Office


def bundle_version(office: Office) -> str:
    """Cheap enough for every sync: no person, method or drawing is read for it."""
    with office.log.reading() as log:
        name = log.log()
    return text_hash("\n".join((name, str(office.people.version()), *office.methods.digests())))
