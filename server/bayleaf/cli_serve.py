"""The commands that serve: `demo` for a look round, `serve` for a shop."""

from __future__ import annotations

from pathlib import Path

import click

from bayleaf.cli_options import data_folder


@click.command()
@click.option("--port", default=8080, show_default=True, envvar="BAYLEAF_PORT", type=click.IntRange(1, 65535))
@click.option("--fresh", is_flag=True, help="Throw the demo of earlier runs away and make it anew.")
@click.option("--practice", is_flag=True, help="Make the short practice job alone, without the other three.")
@click.option(
    "--data",
    default=Path(".bayleaf-demo"),
    show_default=True,
    type=click.Path(file_okay=False, path_type=Path),
    help="The demo's folder; it is kept between runs.",
)
def demo(port: int, fresh: bool, practice: bool, data: Path) -> None:
    """Try Bayleaf on this machine: an invented shop, its people, phones and four jobs.

    Use it to see all three roles in one browser, or to show them. It makes the demo in a folder, serves
    it on this machine only and says where to go. Nothing in it is real.

    \b
    Example: bayleaf demo --port 9000
    Exit status: 0 when stopped, 1 if it cannot start (the line before says why and what mends it).
    """
    from bayleaf.demo import run_demo
    from bayleaf.serving import ServingFault

    try:
        run_demo(port, fresh=fresh, practice=practice, data=data)
    except ServingFault as fault:
        raise click.ClickException(str(fault)) from fault


@click.command()
@click.option(
    "--name",
    required=True,
    envvar="BAYLEAF_NAME",
    help="The name by which phones reach the server, as in its address.",
)
@data_folder("The folder that holds everything: records, photos, keys.", must_exist=False)
@click.option("--port", default=8080, show_default=True, envvar="BAYLEAF_PORT", type=click.IntRange(1, 65535))
@click.option(
    "--bind",
    default="127.0.0.1",
    show_default=True,
    envvar="BAYLEAF_BIND",
    help="The address to listen on; 0.0.0.0 for all.",
)
@click.option(
    "--cert", envvar="BAYLEAF_CERT", type=click.Path(path_type=Path), help="The certificate's PEM file."
)
@click.option(
    "--key", envvar="BAYLEAF_KEY", type=click.Path(path_type=Path), help="The certificate's key, PEM."
)
@click.option(
    "--database", default="", envvar="BAYLEAF_DATABASE", help="A database URL; else SQLite in --data."
)
def serve(
    *, name: str, data: Path, port: int, bind: str, cert: Path | None, key: Path | None, database: str
) -> None:
    """Serve a shop's phones and its office.

    Phones need HTTPS: give --cert and --key, or let a reverse proxy hold the certificate and pass the
    Host header on. The name stays with the installed app, so choose one that the shop can keep.

    \b
    Example, behind a proxy:   bayleaf serve --name cards.example.org --data /srv/bayleaf
    Example, by itself:        bayleaf serve --name cards.example.org --bind 0.0.0.0 --port 443 \\
                                   --cert fullchain.pem --key privkey.pem
    Exit status: 0 when stopped, 1 if it cannot start (the line before says why and what mends it).
    """
    from bayleaf.serving import Serving, ServingFault
    from bayleaf.serving import serve as serve_shop

    try:
        serve_shop(Serving(name, data, port, cert, key, bind, database))
    except ServingFault as fault:
        raise click.ClickException(str(fault)) from fault
