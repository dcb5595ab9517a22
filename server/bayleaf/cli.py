"""The `bayleaf` command: what it can do, each command in a module of its own."""

from __future__ import annotations

import click

from bayleaf.cli_backup import backup
from bayleaf.cli_bonding import bonding
from bayleaf.cli_dossier import dossier
from bayleaf.cli_fastening import fastening
from bayleaf.cli_handin import handin
from bayleaf.cli_heat import heat
from bayleaf.cli_methods import method
from bayleaf.cli_serve import demo, serve


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="bayleaf", prog_name="bayleaf")
def main() -> None:
    """Bayleaf: the job card at the car, offline on the phone, provable in the office.

    \b
    To look round:      bayleaf demo
    To run a shop:      bayleaf serve --name cards.example.org
    To check a dossier: bayleaf dossier check FILE (needs no server)

    Every command says what it does, when to use it and gives an example: bayleaf COMMAND --help.
    Options may also be set in the environment, as BAYLEAF_DATA for --data.
    """


for command in (demo, serve, backup, method, heat, dossier, handin, fastening, bonding):
    main.add_command(command)
