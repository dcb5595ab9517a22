"""Judges a job's heat runs by the entries that the office holds, or by those of a dossier."""

from __future__ import annotations

import json

from bayleaf.domain.dossier import DossierFault, Seen
from bayleaf.domain.dossier_contents import read_contents
from bayleaf.domain.entries import read_entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import method_of
from bayleaf.step_computations.run_verdict import RunVerdict, run_verdicts
from bayleaf.usecases.check_dossier import Container
from bayleaf.usecases.dossier_gathering import folded
from bayleaf.usecases.job_reading import whole_log
from bayleaf.usecases.office import Office


def verdicts_of_job(office: Office, job: str) -> list[RunVerdict]:
    """In the order in which the runs were switched on. Refusal: unknown_job."""
    entries = [read_entry(one.text) for one in whole_log(office, job)]
    state, texts = folded(office, entries)
    methods = {digest: method_of(json.loads(text)) for digest, text in texts.items()}
    return run_verdicts(state, {one.hash: one for one in entries}, methods)


def verdicts_of_dossier(container: Container) -> list[RunVerdict]:
    """From its entries alone; whether it is intact, `dossier check` says. Raises DossierFault."""
    seen: dict[str, Seen] = {member.name: member for member in container.members()}
    contents = read_contents(seen)
    try:
        state = fold(contents.methods, contents.entries)
        return run_verdicts(state, {one.hash: one for one in contents.entries}, contents.methods)
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise DossierFault(f"entries: not in their form ({error!r})") from error
