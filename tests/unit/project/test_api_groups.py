"""Every group of the API's page bears a name that says what is in it."""

from __future__ import annotations

import re
from pathlib import Path

from bayleaf.app import ROUTES

WORDS = Path(__file__).parents[3] / "web" / "src" / "ui" / "words" / "office_en_api.ts"


def test_every_group_of_routes_has_a_name_on_the_page() -> None:
    table = WORDS.read_text(encoding="utf-8").partition("const GROUPS")[2].partition("\n}\n")[0]
    named = set(re.findall(r"^  (\w+): '", table, re.MULTILINE))
    assert {one.blueprint.name for one in ROUTES} - named == set()
