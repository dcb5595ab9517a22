"""Which bundle a phone should hold: another with each person, method, paper, plan, instrument, lot, store."""

from __future__ import annotations

from collections.abc import Iterable

from bayleaf.canonical.digest import text_hash
from bayleaf.paper_ports import Paper
from bayleaf.usecases.heat_plans import JobPlan, plans_version
from bayleaf.usecases.office import Office
from bayleaf.usecases.papers import papers_version


def bundle_version(office: Office, papers: Iterable[Paper], plans: Iterable[JobPlan]) -> str:
    """Cheap enough for every sync: no person, method, drawing or lot is read.

    `papers`, `plans`: those that it tells of.
    """
    with office.log.reading() as log:
        name = log.log()
    parts = (name, str(office.people.version()), office.stock.version(), *office.methods.digests())
    return text_hash("\n".join((*parts, *papers_version(papers), *plans_version(plans))))
