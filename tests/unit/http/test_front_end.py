"""The one page answers every address of the app; its worker is never cached, its hashed files for ever."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from harness.server import Bench, bench, error_of


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder = tmp_path_factory.mktemp("built")
    front_end = folder / "front_end"
    (front_end / "assets").mkdir(parents=True)
    (front_end / "index.html").write_text("<!doctype html><title>the page</title>")
    (front_end / "sw.js").write_text("// the worker")
    (front_end / "assets" / "main-4f3a.js").write_text("// the app")
    (folder / "outside.txt").write_text("a secret")
    made = bench(folder / "data", front_end=front_end)
    yield made
    made.close()


@pytest.mark.parametrize("path", ["/", "/office", "/office/jobs/x", "/job/1/step/spn-01", "/apis"])
def test_every_address_of_the_app_is_the_one_page(built: Bench, path: str) -> None:
    answer = built.client().get(path)
    assert "the page" in answer.text
    assert answer.headers["Cache-Control"] == "no-cache"


def test_the_worker_is_asked_for_anew_and_hashed_files_are_kept(built: Bench) -> None:
    worker = built.client().get("/sw.js")
    assert worker.headers["Cache-Control"] == "no-cache"
    assert "javascript" in worker.headers["Content-Type"]
    assert "immutable" in built.client().get("/assets/main-4f3a.js").headers["Cache-Control"]


@pytest.mark.parametrize(
    "path", ["/assets/gone-1234.js", "/gone.js", "/assets/../../outside.txt", "/api/gone"]
)
def test_a_missing_file_is_never_the_page(built: Bench, path: str) -> None:
    answer = built.client().get(path)
    assert "the page" not in answer.text
    assert error_of(answer)[0] == 404


@pytest.mark.parametrize("path", ["/../outside.txt", "/..%2foutside.txt", "/%2e%2e/outside.txt"])
def test_nothing_outside_the_folder_is_served(built: Bench, path: str) -> None:
    assert "a secret" not in built.client().get(path).text


def test_without_the_built_front_end_the_page_says_how_to_build_it(tmp_path: Path) -> None:
    server = bench(tmp_path / "data", front_end=tmp_path / "nothing")
    answer = server.client().get("/")
    assert answer.status_code == 503
    assert "pip install -e ." in answer.text
    assert "npm run build" in answer.text
    server.close()
