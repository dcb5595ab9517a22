"""Serves the gallery: every screen of the phone with invented state, built for the moment."""

from __future__ import annotations

import subprocess
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from playwright.sync_api import Error, Page
from playwright.sync_api import TimeoutError as Late

from harness.node import NODE_ENV, node_binary

WEB = Path(__file__).parents[2] / "web"
STANDS_MS = 60_000
STANDS = "document.documentElement.dataset.shown !== undefined"


class Quiet(SimpleHTTPRequestHandler):
    """Files of one folder, without a word for each."""

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  (the library's own name)
        """Nobody reads it."""


class Gallery:
    """The built gallery at an address of its own."""

    def __init__(self, url: str) -> None:
        self.url = url

    def show(self, page: Page, scene: str) -> None:
        """The scene as it stands once its later parts have come."""
        page.goto(f"{self.url}/?scene={scene}")
        try:
            page.wait_for_function(STANDS, timeout=STANDS_MS)
        except Late as late:
            raise AssertionError(f"the scene {scene} does not stand") from late

    def turn_to(self, page: Page, scene: str) -> None:
        """Another scene on a page that shows one: nothing is loaded anew."""
        try:
            page.evaluate("scene => showScene(scene)", scene)
        except Error as fault:
            raise AssertionError(f"the scene {scene} does not stand") from fault

    def scenes(self, page: Page) -> list[str]:
        """Their names, as the gallery tells them."""
        self.show(page, "empty")
        names: str = page.evaluate("document.documentElement.dataset.scenes")
        return names.split()


def build(folder: str) -> None:
    """A few seconds."""
    words = [str(node_binary()), "test/ui/gallery/build.ts", folder]
    subprocess.run(words, cwd=WEB, env=NODE_ENV, check=True, capture_output=True, timeout=300)


@contextmanager
def hung() -> Iterator[Gallery]:
    """The gallery, for as long as it is looked at; each has a build of its own."""
    with tempfile.TemporaryDirectory() as folder:
        build(folder)
        server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=folder))
        threading.Thread(target=server.serve_forever, daemon=True).start()
        try:
            yield Gallery(f"http://127.0.0.1:{server.server_port}")
        finally:
            server.shutdown()
            server.server_close()
