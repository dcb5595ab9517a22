"""What both folds leave alone, since twins could not agree on it: fractions, rounding, dates, locale."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]
PYTHON = sorted(
    [
        *(ROOT / "server/bayleaf/domain/fold").glob("*.py"),
        ROOT / "server/bayleaf/fastening/tally.py",
    ]
)
SCRIPT = sorted([*(ROOT / "web/src/core/fold").glob("*.ts"), ROOT / "web/src/core/tally.ts"])
CALLS = {"float", "round"}
MODULES = {"datetime", "decimal", "fractions", "locale", "math", "random", "time"}
WORDS = re.compile(r"\bDate\b|\bIntl\b|[lL]ocale|\bparseFloat\b|Math\.(?!max|min)\w+|\d\.\d")
STRINGS_AND_COMMENTS = re.compile(r"/\*.*?\*/|//[^\n]*|'[^'\n]*'|`[^`]*`|/\^?[^/\n]+\$?/\.test", re.DOTALL)


def faults_of(source: str) -> list[str]:
    found = []
    for node in ast.walk(ast.parse(source)):
        match node:
            case ast.BinOp(op=ast.Div()) | ast.AugAssign(op=ast.Div()):
                found.append("a division")
            case ast.Constant(value=float()):
                found.append("a fraction")
            case ast.Call(func=ast.Name(id=name)) if name in CALLS:
                found.append(name)
            case ast.Import(names=names):
                found += [one.name for one in names if one.name in MODULES]
            case ast.ImportFrom(module=module) if module in MODULES:
                found.append(module)
    return found


@pytest.mark.parametrize("file", PYTHON, ids=lambda file: file.name)
def test_the_fold_of_the_office_knows_whole_numbers_and_no_date(file: Path) -> None:
    assert faults_of(file.read_text()) == []


@pytest.mark.parametrize("file", SCRIPT, ids=lambda file: file.name)
def test_the_fold_of_the_phone_knows_whole_numbers_and_no_date(file: Path) -> None:
    code = STRINGS_AND_COMMENTS.sub("''", file.read_text())
    assert WORDS.findall(code) == []
    assert not re.search(r"[\w)\]]\s*/=?\s*[\w(]", code), "a division"


def test_what_is_forbidden_would_be_seen() -> None:
    found = set(faults_of("import math\nx = 1 / 2 + 0.5 + round(y)"))
    assert found == {"a division", "a fraction", "round", "math"}
