"""Runs every check of the project, in order, and ends with pytest's own line.

Usage: python tests/run.py [pytest arguments]. Exit status 0 if all passed, 1 if a check failed,
2 if a tool that a check needs is missing (the line before says how to get it).
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

TOP = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(TOP / "tests"))

from harness.browser import BrowserMissing, find_browser  # noqa: E402  the path above comes first
from harness.node import NODE_ENV, node_binary, npm_script  # noqa: E402


def main(pytest_words: list[str]) -> int:
    try:
        browser = find_browser(say)
    except BrowserMissing as missing:
        say(str(missing))
        return 2
    env = NODE_ENV | {"BAYLEAF_CHROMIUM": browser}
    failed = [name for name, words, folder in checks() if not passes(name, words, folder, env)]
    if failed:
        say("failed before pytest: " + ", ".join(failed))
    tests = subprocess.run([sys.executable, "-m", "pytest", *pytest_words], cwd=TOP, env=env, check=False)
    return 1 if failed or tests.returncode else 0


def checks() -> list[tuple[str, list[str], Path]]:
    """Name, command and folder of each check, cheapest first."""
    node, web = str(node_binary()), TOP / "web"
    return [
        *([] if libraries_are_current(web) else [("web libraries", [node, str(npm_script()), "ci"], web)]),
        ("ruff", [sys.executable, "-m", "ruff", "check", "."], TOP),
        ("ruff format", [sys.executable, "-m", "ruff", "format", "--check", "."], TOP),
        ("mypy", [sys.executable, "-m", "mypy"], TOP),
        ("import walls", [str(Path(sys.executable).with_name("lint-imports")), "--no-cache"], TOP),
        ("biome", [node, "node_modules/@biomejs/biome/bin/biome", "ci", "--error-on-warnings", "."], web),
        ("typescript", [node, "node_modules/typescript/bin/tsc", "-b"], web),
        ("vitest", [node, "node_modules/vitest/vitest.mjs", "run"], web),
        ("front end", [node, str(npm_script()), "run", "build", "--silent"], web),
    ]


def libraries_are_current(web: Path) -> bool:
    """Whether what is installed came from the lock file as it is now."""
    installed, lock = web / "node_modules" / ".package-lock.json", web / "package-lock.json"
    return installed.exists() and installed.stat().st_mtime >= lock.stat().st_mtime


def passes(name: str, words: list[str], folder: Path, env: dict[str, str]) -> bool:
    begun = time.monotonic()
    done = subprocess.run(words, cwd=folder, env=env, check=False)
    say(f"{name}: {'passed' if done.returncode == 0 else 'FAILED'} in {time.monotonic() - begun:.1f} s")
    return done.returncode == 0


def say(line: str) -> None:
    print(f"[tests] {line}", flush=True)


if __name__ == "__main__":
    os.environ.setdefault("PYTHONUNBUFFERED", "1")
    sys.exit(main(sys.argv[1:]))
