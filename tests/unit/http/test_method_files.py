"""The office looks at a method file before it is kept, reads it back as it was, and sees who pins it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from harness.server import METHOD_FOLDER, Bench, bench, error_of

SPINE = (METHOD_FOLDER / "spine.yaml").read_text(encoding="utf-8")
DRAWINGS = {path.name: path.read_text(encoding="utf-8") for path in METHOD_FOLDER.glob("*.svg")}


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    made = bench(tmp_path_factory.mktemp("method_files") / "data")
    yield made
    made.close()


def checked(served: Bench, yaml: str) -> dict[str, Any]:
    body = {"file": "spine.yaml", "yaml": yaml, "drawings": DRAWINGS}
    found: dict[str, Any] = served.office().post("/api/methods/check", json=body).get_json()
    return found


def test_a_check_tells_the_methods_and_keeps_nothing(served: Bench) -> None:
    found = checked(served, SPINE)
    assert [(one["id"], one["known"]) for one in found["methods"]] == [("spine", False)]
    assert found["faults"] == []
    assert found["remarks"], "spine leaves usual figures unsaid"
    assert set(found["remarks"][0]) == {"line", "field", "said"}
    assert served.office().get("/api/methods").get_json() == {"methods": []}


def test_faults_come_with_their_line_and_what_mends_them(served: Bench) -> None:
    broken = SPINE.replace("ask: tick", "ask: tock", 1)
    line = next(at for at, text in enumerate(broken.splitlines(), 1) if "ask: tock" in text)
    found = checked(served, broken)
    assert found["methods"] == []
    fault = found["faults"][0]
    assert (fault["line"], '"tock"' in fault["found"]) == (line, True)
    assert fault["allowed"] != ""


def test_the_file_comes_back_as_it_was_imported(served: Bench) -> None:
    digest = served.method()
    answer = served.office().get(f"/api/methods/{digest}/yaml")
    assert answer.get_data(as_text=True) == SPINE
    assert "spine.yaml" in answer.headers["Content-Disposition"]
    unknown = served.office().get(f"/api/methods/{'0' * 64}/yaml")
    assert error_of(unknown) == (404, "unknown_method")


def test_a_revision_names_the_jobs_that_pin_it(served: Bench) -> None:
    job = served.job("technician")
    digest = served.method()
    (row,) = served.office().get(f"/api/methods/{digest}/jobs").get_json()["jobs"]
    assert (row["job"], row["now"], row["filed_ms"]) == (job, True, 0)
    assert served.office().get(f"/api/methods/{'0' * 64}/jobs").get_json() == {"jobs": []}


def test_the_guide_is_served_as_it_is_written(served: Bench) -> None:
    answer = served.office().get("/api/method-guide")
    assert answer.get_data(as_text=True).startswith("# Writing a method")
