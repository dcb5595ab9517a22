"""The office reads what the computations know of materials, with where each figure is from."""

from __future__ import annotations

from pathlib import Path

from harness.server import bench


def test_every_figure_has_its_unit_range_and_source(tmp_path: Path) -> None:
    served = bench(tmp_path / "data")
    groups = served.office().get("/api/materials").get_json()["groups"]
    served.close()
    assert [one["group"] for one in groups] == ["adhesives", "rivets", "bits", "materials"]
    things = {thing["id"]: thing for group in groups for thing in group["things"]}
    sheet = things["aluminium-5xxx-sheet"]
    assert sheet["values"][0] == {
        "name": "conductivity",
        "value": 130,
        "low": 110,
        "high": 145,
        "unit": "W/(m K)",
        "source": "aluminium industry table of alloy properties, read second-hand",
        "applies": "",
    }
    assert sheet["limits"][0]["applies"] == "over 3 percent magnesium, long times"
    assert things["iso-15981-ala-2p4"]["grips"][0] == {"length": 6, "low": 0.5, "high": 3}
    figures = [one for thing in things.values() for one in (*thing["values"], *thing["limits"])]
    assert all(one["source"] and one["unit"] and one["low"] <= one["value"] <= one["high"] for one in figures)
