"""Which bundle a phone should hold: another with every person, method, paper, instrument, lot and store."""

from __future__ import annotations

from collections.abc import Iterable

from bayleaf.canonical.digest import text_hash
from bayleaf.paper_ports import Paper
from bayleaf.usecases.office import Office
from bayleaf.usecases.papers import papers_version


def bundle_version(office: Office, papers: Iterable[Paper]) -> str:
    """Cheap enough for every sync: no person, method, drawing or lot is read. `papers`: those it tells of."""
    with office.log.reading() as log:
        name = log.log()
    parts = (name, str(office.people.version()), office.stock.version(), *office.methods.digests())
    return text_hash("\n".join((*parts, *papers_version(papers))))
