"""Options that several commands share, so that they are named and explained alike."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import click

Option = Callable[[Callable[..., None]], Callable[..., None]]
OF_SERVE = "The data folder of the shop, as given to `bayleaf serve`."


def data_folder(about: str, *, must_exist: bool) -> Option:
    """The option that names the shop's folder."""
    return click.option(
        "--data",
        default=Path("bayleaf-data"),
        show_default=True,
        envvar="BAYLEAF_DATA",
        type=click.Path(exists=must_exist, file_okay=False, path_type=Path),
        help=about,
    )


DATA = data_folder(OF_SERVE, must_exist=True)
DATABASE_URL = click.option(
    "--database", default="", envvar="BAYLEAF_DATABASE", help="The URL given to `bayleaf serve`, if any."
)
AS_JSON = click.option(
    "--json", "as_json", is_flag=True, help="One JSON object on standard output, for scripts."
)
