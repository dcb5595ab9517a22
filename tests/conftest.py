"""How the tests share the cores of a machine."""

from __future__ import annotations

from pathlib import Path

import pytest

HERE = Path(__file__).parent


@pytest.hookimpl(tryfirst=True)  # before the groups are read
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """A file stays together, as what it sets up is its own; of those with a browser one runs at a time."""
    for item in items:
        file = item.path.relative_to(HERE)
        item.add_marker(pytest.mark.xdist_group("browser" if file.parts[0] == "browser" else str(file)))
