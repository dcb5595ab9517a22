"""A dossier says the shop's time zone as it was at filing, and is checked without looking a zone up."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.time_zone import set_time_zone
from unit.dossier.filing_shop import FilingShop


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[FilingShop]:
    made = FilingShop(tmp_path / "data")
    made.filing = replace(made.filing, typesetter=None)  # its report in letters is enough here
    yield made
    made.parts.close()


def test_the_report_in_letters_says_the_zone_and_the_dossier_keeps_its_offsets(shop: FilingShop) -> None:
    set_time_zone(shop.office.time_zones, " Asia/Kolkata ")
    outcome = shop.file()
    about = json.loads(shop.member(outcome, "data/about.json"))
    assert about["time_zone"]["name"] == "Asia/Kolkata"
    assert [east for _, east in about["time_zone"]["offsets"]] == [330]
    assert "Times    Asia/Kolkata, UTC+05:30" in shop.member(outcome, "data/report.txt").decode()
    assert shop.check(outcome).faults == ()


def test_without_a_zone_times_are_utc_and_say_so(shop: FilingShop) -> None:
    outcome = shop.file()
    assert "time_zone" not in json.loads(shop.member(outcome, "data/about.json"))
    assert "\nTimes    UTC\n" in shop.member(outcome, "data/report.txt").decode()


def test_a_zone_that_nobody_knows_is_refused_by_name_and_changes_nothing(shop: FilingShop) -> None:
    set_time_zone(shop.office.time_zones, "Europe/Helsinki")
    with pytest.raises(Refusal) as told:
        set_time_zone(shop.office.time_zones, "Bay 4")
    assert (told.value.code, told.value.field) == ("unknown_time_zone", "time_zone")
    assert shop.office.time_zones.own() == "Europe/Helsinki"
    assert set_time_zone(shop.office.time_zones, "") == ""
