"""Says once what many rows would say alike of their way to the office: a day offline comes in at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from bayleaf.report.words import capital, many


def said_often(lates: Iterable[str], least: int = 2) -> Mapping[str, int]:
    """What at least so many say, in the order in which it is first said, and how many say it."""
    return {late: times for late, times in Counter(one for one in lates if one).items() if times >= least}


def late_lines(often: Mapping[str, int], of: int, one: str) -> list[str]:
    """A line each: `Late: reached the office 2026-11-03 17:30: three acts.`; `every act` where all were."""
    return [
        f"{capital(late)}: {f'every {one}' if times == of else many(times, one)}."
        for late, times in often.items()
    ]
