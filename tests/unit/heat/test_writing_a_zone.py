"""The page about zone documents: its example is read, and can be planned."""

from __future__ import annotations

import re

from bayleaf.heat.plan import plan_of
from bayleaf.heat.plan_json import plan_json
from bayleaf.heat.plan_words import plan_lines
from bayleaf.heat.zone_document import read_zone
from unit.heat.zones import SEED

PAGE = (SEED / "writing_a_zone.md").read_text("utf-8")


def test_the_pages_example_is_planned_with_its_earlier_runs() -> None:
    (example,) = re.findall(r"^```yaml\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
    zone = read_zone(example)
    assert zone.invented
    told = "\n".join(plan_lines(plan_json(plan_of(zone, family_size=3))))
    assert "and 12 in earlier runs (7 in runs of the joint beside)" in told
