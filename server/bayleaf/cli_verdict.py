"""What `bayleaf heat verdict` says of a job's runs from their entries: those of the shop, or of a dossier."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Final

import click

from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.config import Config
from bayleaf.domain.dossier import DossierFault
from bayleaf.report.verdict_words import STANDING, WHAT, found_words, overall_words
from bayleaf.step_computations.run_verdict import RunVerdict
from bayleaf.usecases.judge_run import verdicts_of_dossier, verdicts_of_job
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal

FAULTY, NOT_CONFORMING = 1, 3
FIRST: Final = "The vehicle maker's instructions and the adhesive's data sheet come first."


def judged_in_shop(data: Path, database: str, job: str) -> list[RunVerdict]:
    """The runs of a job, named by its id or its order number."""
    from bayleaf.app import open_parts

    if not data.is_dir():
        raise click.UsageError(f"{data} is no folder; name the shop's data folder with --data.")
    parts = open_parts(Config(data=data, database_url=database))
    try:
        return verdicts_of_job(parts.office, job_named(parts.office, job))
    except Refusal as refusal:
        raise click.UsageError(refusal.message) from refusal
    finally:
        parts.close()


def job_named(office: Office, job: str) -> str:
    """The id of the one job of this id or order number."""
    with office.log.reading() as log:
        if log.job(job) is not None:
            return job
        found = [one.id for one in log.of_order(job)]
    if len(found) == 1:
        return found[0]
    what = "no job" if not found else f"{len(found)} jobs ({', '.join(found)})"
    raise click.UsageError(f"{what} of the order or id {job!r}; name one by its id.")


def judged_in_dossier(file: Path) -> list[RunVerdict]:
    """The runs in a dossier's entries."""
    try:
        with file.open("rb") as opened:
            return verdicts_of_dossier(ContainerReader(opened))
    except OSError as error:
        raise click.UsageError(f"{file}: cannot be read ({error}).") from error
    except DossierFault as fault:
        click.echo(f"{file}: {fault}", err=True)
        raise SystemExit(FAULTY) from fault


def tell(runs: Sequence[RunVerdict], *, as_json: bool) -> None:
    """Every run, line by line; ends with 3 if one does not conform."""
    if as_json:
        click.echo(json.dumps({"runs": [asdict(one) for one in runs], "first": FIRST}))
    else:
        click.echo("\n\n".join([*(_told(one) for one in runs), FIRST]) if runs else "no heat run")
    if any(one.overall == "not_conforming" for one in runs):
        raise SystemExit(NOT_CONFORMING)


def _told(run: RunVerdict) -> str:
    head = f"{run.zone_name}, {run.purpose}, step {run.step}: {overall_words(run)}"
    lines = [f"  {WHAT[one.code]}: {found_words(one)}: {STANDING[one.standing]}" for one in run.lines]
    earlier = len(run.earlier)
    counted = (
        [f"  minutes of the metal with those of {earlier} earlier run{'s' * (earlier > 1)}"]
        if earlier
        else []
    )
    return "\n".join([head, *lines, *counted, f"  model {run.model}"])
