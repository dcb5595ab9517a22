"""The command that checks a dossier: no server, no extraction."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

import click

from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.adapters.signatures import in_groups, verifies
from bayleaf.cli_options import AS_JSON
from bayleaf.usecases.check_dossier import SealShown, Verdict, check_dossier

NOT_GOOD = 1
FINGERPRINT_DIGITS = 64


@click.group()
def dossier() -> None:
    """Check dossiers: closed jobs as one file each that anyone can verify."""


def _fingerprint(_context: click.Context, _option: click.Parameter, typed: str) -> str:
    digits = "".join(typed.split()).replace(":", "").lower()
    if digits and (len(digits) != FINGERPRINT_DIGITS or not set(digits) <= set("0123456789abcdef")):
        raise click.BadParameter(
            f"found {len(digits)} characters; needed are 64 hex digits, as the report shows them"
        )
    return digits


@dossier.command()
@click.argument("file", type=click.Path(exists=True, dir_okay=False, readable=True, path_type=Path))
@click.option(
    "--seal", default="", metavar="FINGERPRINT", callback=_fingerprint, help="The seal to compare with."
)
@AS_JSON
def check(file: Path, seal: str, as_json: bool) -> None:
    """Check a dossier FILE by itself: needs no server and unpacks nothing.

    It reads the file once and compares every byte with what it must be, checks chains, signatures,
    photos, seal and card state, and says what it could show: intact; sealed by this fingerprint; seal
    not compared. Whoever makes a forgery can seal it with a key of their own: only --seal tells, with
    the fingerprint from the shop's register or from a report that you were handed on paper. Not
    shown: that the holder of the seal key was honest, nor the true time of day.

    \b
    Example: bayleaf dossier check 2024-17.zip --seal "2ad4 8b3e 38a0 ..."
    Exit status: 0 intact (and, with --seal, sealed by it), 1 not, 2 if the file cannot be read.
    """
    try:
        with file.open("rb") as opened:
            verdict = check_dossier(ContainerReader(opened), verifies, seal)
    except OSError as error:
        raise click.UsageError(f"{file}: cannot be read ({error}).") from error
    if as_json:
        click.echo(json.dumps({**asdict(verdict), "intact": verdict.intact, "good": verdict.good}))
    else:
        _tell(file, verdict)
    raise SystemExit(0 if verdict.good else NOT_GOOD)


def _tell(file: Path, verdict: Verdict) -> None:
    click.echo(f"{file}: {'intact' if verdict.intact else 'NOT INTACT'}")
    for fault in verdict.faults:
        click.echo(f"  {fault}")
    if verdict.seal is SealShown.NOT_COMPARED:
        click.echo("  seal not compared: name the fingerprint that you expect with --seal")
    else:
        click.echo(f"  {verdict.seal.value}")
    if verdict.fingerprint:
        click.echo(f"  seal {in_groups(verdict.fingerprint)}")
    if verdict.job:
        counts = f"{verdict.entries} entries of {verdict.devices} devices, {verdict.photos} photos"
        click.echo(f"  job {verdict.job}: {counts}")
    for note in verdict.notes:
        click.echo(f"  note: {note}")
    click.echo(f"  SHA-256 of what was read: {verdict.sha256}")
