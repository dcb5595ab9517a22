"""Finds a Chromium that really starts, in a fixed order, and says which one it took."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from playwright.sync_api import Error, sync_playwright

MEND = "no browser found: run `apt-get install -y chromium` as root, or set BAYLEAF_CHROMIUM to one's path"
ON_PATH = ("chromium", "chromium-browser", "google-chrome")
# Root has no user namespaces to sandbox in; the rest keeps a test browser from calling out.
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
             "--disable-component-update", "--disable-sync"]  # fmt: skip


class BrowserMissing(RuntimeError):
    """No Chromium starts here; the message is the line that mends it."""


def find_browser(say: Callable[[str], None]) -> str:
    """Path of the first Chromium that opens about:blank; raises BrowserMissing with the mend."""
    for where, path in _candidates(say):
        if path and _starts(path):
            say(f"browser: {path} ({where})")
            return path
    raise BrowserMissing(MEND)


def _candidates(say: Callable[[str], None]) -> Iterator[tuple[str, str | None]]:
    yield "$BAYLEAF_CHROMIUM", os.environ.get("BAYLEAF_CHROMIUM")
    for name in ON_PATH:
        yield "on PATH", shutil.which(name)
    yield "Playwright's own", _playwrights_own()
    if os.geteuid() == 0 and shutil.which("apt-get"):
        say("no browser yet: installing Debian's chromium")
        _install_debians()
        yield "Debian's, installed now", shutil.which("chromium")
    else:
        say("no browser yet: python -m playwright install chromium")
        subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False)
        yield "Playwright's own, installed now", _playwrights_own()


def _playwrights_own() -> str | None:
    with sync_playwright() as playwright:
        path = playwright.chromium.executable_path
    return path if Path(path).exists() else None


def _install_debians() -> None:
    env = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    for words in (["update", "-qq"], ["install", "-y", "-qq", "chromium"]):
        subprocess.run(["apt-get", *words], env=env, check=False, stdout=subprocess.DEVNULL)


def _starts(path: str) -> bool:
    try:
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
            browser.new_page().goto("about:blank")
            browser.close()
    except Error:
        return False
    return True
