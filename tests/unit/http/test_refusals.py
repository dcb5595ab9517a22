"""Every code that any layer refuses with has its status in the one table."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import bayleaf
from bayleaf.http.refusals import STATUS_OF

PACKAGE = Path(bayleaf.__file__).parent


def codes_raised() -> Iterator[tuple[str, str]]:
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Refusal":
                code = node.args[0]
                if isinstance(code, ast.Constant):
                    yield str(code.value), f"{path.name}:{node.lineno}"


def test_every_code_that_is_raised_stands_in_the_table() -> None:
    missing = {code: where for code, where in codes_raised() if code not in STATUS_OF}
    assert missing == {}


def test_every_refusal_is_the_callers_fault() -> None:
    assert {code: status for code, status in STATUS_OF.items() if not 400 <= status < 500} == {}
