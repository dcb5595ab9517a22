"""A report says its times in the shop's zone, names it with its offset, and no time of day is two instants.

Helsinki put its clocks back on 25 October 2026: 03:59 at +03:00, then 03:00 at +02:00, at 01:00 UTC.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from bayleaf.adapters.memory_push import MemorySettings
from bayleaf.adapters.time_zones import IanaTimeZones
from bayleaf.domain.wall_time import WallTime
from bayleaf.report.contents import contents_of
from unit.report.jobs import well
from unit.report.made_up import Log, at
from unit.report.setting import text_of, typeset

HOUR_MS = 3_600_000
TURN_MS = int(datetime(2026, 10, 25, 1, 0, tzinfo=UTC).timestamp() * 1000)
ZONES = IanaTimeZones(MemorySettings())


def shop_time(log: Log, zone: str) -> WallTime:
    times = [one.at_ms for one in log.entries]
    return replace(ZONES.between(zone, min(times), max(times)), until_ms=max(times))


def report_of(log: Log, zone: str) -> dict[str, Any]:
    source = log.source(filed="4 10:00", time=shop_time(log, zone))
    found: dict[str, Any] = contents_of(source)["report"]
    return found


def over_the_change() -> Log:
    """Two photos an hour apart, both when the wall clock shows half past three."""
    log = Log()
    log.open()
    log.photo("pim", TURN_MS + HOUR_MS // 2, "one", "damage", b"after")
    log.photo("pim", TURN_MS - HOUR_MS // 2, "one", "damage", b"before")
    return log


def test_times_are_the_shops_and_name_its_zone_with_the_offset() -> None:
    report = report_of(well(), "Europe/Helsinki")
    facts = dict(report["facts"])
    assert facts["Worked"] == "2026-11-03 11:00 to 2026-11-03 14:20"
    assert facts["Filed"] == "2026-11-04 12:00 by Ada Quill"
    assert facts["Times"] == (
        "Europe/Helsinki on every page: UTC+02:00; each as its author\u2019s own clock had it"
    )
    assert report["made"] == "2026-11-04 12:00 UTC+02:00"
    assert report["times"] == "Europe/Helsinki, UTC+02:00"


def test_west_of_greenwich_the_day_before_is_the_day() -> None:
    report = report_of(well(), "America/St_Johns")
    assert dict(report["facts"])["Worked"] == "2026-11-03 05:30 to 2026-11-03 08:50"
    assert report["times"] == "America/St_Johns, UTC-03:30"


def test_over_a_change_of_the_clocks_each_time_has_its_offset_and_instants_keep_their_order() -> None:
    report = report_of(over_the_change(), "Europe/Helsinki")
    assert [one["when"] for one in report["photos"]] == [
        "2026-10-25 03:30 +03:00",
        "2026-10-25 03:30 +02:00",
    ]
    facts = dict(report["facts"])
    assert facts["Times"] == (
        "Europe/Helsinki on every page: UTC+03:00, from 2026-10-25 03:00 +02:00 on UTC+02:00; "
        "each says its offset; each as its author\u2019s own clock had it"
    )
    assert report["times"] == "Europe/Helsinki, each with its offset"


def test_the_spring_change_leaves_an_hour_out() -> None:
    """29 March 2026: 02:59 at +02:00 was followed by 04:00 at +03:00."""
    turn_ms = int(datetime(2026, 3, 29, 1, 0, tzinfo=UTC).timestamp() * 1000)
    found = replace(ZONES.between("Europe/Helsinki", turn_ms - HOUR_MS, turn_ms), until_ms=turn_ms)
    assert [found.moment(ms) for ms in (turn_ms - 60_000, turn_ms)] == [
        "2026-03-29 02:59 +02:00",
        "2026-03-29 04:00 +03:00",
    ]


def test_a_lot_is_good_until_the_day_of_its_label() -> None:
    """A phone in New York wrote the end of 10 April 2027 there: 03:59 of the next day in UTC."""
    end = datetime(2027, 4, 11, 3, 59, 59, 999_000, tzinfo=UTC)
    found = ZONES.between("America/New_York", at("3 08:00"), int(end.timestamp() * 1000) + 1)
    assert found.day(int(end.timestamp() * 1000)) == "2027-04-10"
    winter = replace(found, until_ms=at("4 10:00"))
    assert winter.label() == "America/New_York, UTC-05:00"  # no change while the job was worked


def test_every_page_says_which_times_they_are() -> None:
    log = over_the_change()
    set_report = typeset(log, {}, filed="4 10:00", time=shop_time(log, "Europe/Helsinki"))
    assert "times: Europe/Helsinki, each with its offset" in text_of(set_report.pdf)
