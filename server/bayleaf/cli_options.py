"""Options that several commands share, so that they are named and explained alike."""

from __future__ import annotations

from pathlib import Path

import click

DATA = click.option(
    "--data",
    default=Path("bayleaf-data"),
    show_default=True,
    envvar="BAYLEAF_DATA",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    help="The data folder of the shop, as given to `bayleaf serve`.",
)
DATABASE_URL = click.option(
    "--database", default="", envvar="BAYLEAF_DATABASE", help="The URL given to `bayleaf serve`, if any."
)
AS_JSON = click.option(
    "--json", "as_json", is_flag=True, help="One JSON object on standard output, for scripts."
)
