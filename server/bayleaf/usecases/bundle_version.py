"""Which bundle a phone should hold: another with every person, method, instrument, lot and store."""

from __future__ import annotations

from bayleaf.canonical.digest import text_hash
from bayleaf.usecases.office import Office


def bundle_version(office: Office) -> str:
    """Cheap enough for every sync: no person, method, drawing or lot is read for it."""
    with office.log.reading() as log:
        name = log.log()
    parts = (name, str(office.people.version()), office.stock.version(), *office.methods.digests())
    return text_hash("\n".join(parts))
