"""The `bayleaf` command: what it can do, each command in a module of its own."""

from __future__ import annotations

from importlib import import_module

import click

MODULE_OF = {
    "demo": "cli_serve",
    "serve": "cli_serve",
    "backup": "cli_backup",
    "doctor": "cli_doctor",
    "method": "cli_methods",
    "heat": "cli_heat",
    "dossier": "cli_dossier",
    "handin": "cli_handin",
    "fastening": "cli_fastening",
    "bonding": "cli_bonding",
}


class Commands(click.Group):
    """Imports a command when it is called: the numerics of one must not slow the start of another."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002  click's signature
        return sorted(MODULE_OF)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        if cmd_name not in MODULE_OF:
            return None
        command: click.Command = getattr(import_module(f"bayleaf.{MODULE_OF[cmd_name]}"), cmd_name)
        return command


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
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
