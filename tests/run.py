"""Runs every check of the project and ends with pytest's own line.

Usage: python tests/run.py [pytest arguments]. As many checks at once as there are cores, then pytest's tests
in as many processes (`-n 0` keeps them in one). Exit status 0 if all passed, 1 if a check failed, 2 if a tool
that a check needs is missing (the line before says how to get it).
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path
from typing import NamedTuple

TOP = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(TOP / "tests"))

from harness.browser import BrowserMissing, find_browser  # noqa: E402  the path above comes first
from harness.node import NODE_ENV, node_binary, npm_script  # noqa: E402

WEB = TOP / "web"
BIOME = "node_modules/@biomejs/biome/bin/biome"
CORES = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class Check(NamedTuple):
    """A command that is to end with 0."""

    name: str
    words: list[str]
    folder: Path = TOP


def main(pytest_words: list[str]) -> int:
    try:
        browser = find_browser(say)
    except BrowserMissing as missing:
        say(str(missing))
        return 2
    env = NODE_ENV | {"BAYLEAF_CHROMIUM": browser}
    failed = [one.name for one in before_all() if not passes(env, one)]
    with ThreadPoolExecutor(CORES) as at_once:
        of_all = at_once.map(partial(passes, env), checks())
        failed += [one.name for one, passed in zip(checks(), of_all, strict=True) if not passed]
    if failed:
        say("failed before pytest: " + ", ".join(failed))
    # Neighbours share fixtures: each process gets a stretch of tests; who is done early takes from another.
    words = [sys.executable, "-m", "pytest", "-n", str(CORES), "--dist", "worksteal", *pytest_words]
    tests = subprocess.run(words, cwd=TOP, env=env, check=False)
    return 1 if failed or tests.returncode else 0


def before_all() -> list[Check]:
    """What the other checks stand on."""
    return [] if libraries_are_current(WEB) else [Check("web libraries", [*npm(), "ci"], WEB)]


def checks() -> list[Check]:
    """The longest first: beside it the others follow each other."""
    node = str(node_binary())
    return [
        Check("mypy", [sys.executable, "-m", "mypy"]),
        Check("ruff", [sys.executable, "-m", "ruff", "check", "."]),
        Check("ruff format", [sys.executable, "-m", "ruff", "format", "--check", "."]),
        Check("import walls", [str(Path(sys.executable).with_name("lint-imports")), "--no-cache"]),
        Check("biome", [node, BIOME, "ci", "--error-on-warnings", "."], WEB),
        Check("typescript", [node, "node_modules/typescript/bin/tsc", "-b"], WEB),
        Check("front end", [*npm(), "run", "build", "--silent"], WEB),
        Check("vitest", [node, "node_modules/vitest/vitest.mjs", "run"], WEB),
    ]


def npm() -> list[str]:
    return [str(node_binary()), str(npm_script())]


def libraries_are_current(web: Path) -> bool:
    """Whether what is installed came from the lock file as it is now."""
    installed, lock = web / "node_modules" / ".package-lock.json", web / "package-lock.json"
    return installed.exists() and installed.stat().st_mtime >= lock.stat().st_mtime


def passes(env: dict[str, str], check: Check) -> bool:
    """Runs it, and tells all that it said in one piece."""
    begun = time.monotonic()
    done = subprocess.run(
        check.words,
        cwd=check.folder,
        env=env,
        check=False,
        text=True,
        errors="replace",
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
    )
    verdict = "passed" if done.returncode == 0 else "FAILED"
    say(f"{check.name}: {verdict} in {time.monotonic() - begun:.1f} s", done.stdout)
    return done.returncode == 0


def say(line: str, before: str = "") -> None:
    """In one write, so that checks which end together keep their lines apart."""
    sys.stdout.write(f"{before}[tests] {line}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    os.environ.setdefault("PYTHONUNBUFFERED", "1")
    sys.exit(main(sys.argv[1:]))
