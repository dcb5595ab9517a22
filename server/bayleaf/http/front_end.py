"""Serves the built front end: the one page for every address of the app, its worker, its hashed files."""

from __future__ import annotations

from pathlib import Path

from flask import Blueprint, Flask, Response, abort, send_from_directory
from werkzeug.routing import BaseConverter

from bayleaf.http.callers import Callers

HASHED_FOLDER = "assets/"
FOR_EVER = "public, max-age=31536000, immutable"
NOT_BUILT = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Bayleaf is not built</title></head>
<body><h1>The front end is not built</h1>
<p>The server runs, but its pages are missing. In the project's folder, build them:</p>
<pre>.venv/bin/pip install -e .</pre>
<p>or, while working on them, with Node on the PATH:</p>
<pre>cd web &amp;&amp; npm ci &amp;&amp; npm run build</pre>
</body></html>
"""


class PageConverter(BaseConverter):
    """Any address but those of the API, which answers for itself what it does not have."""

    regex = r"(?!api(?:/|$)).+"
    part_isolating = False


def register(app: Flask, folder: Path) -> None:
    """Put the pages in place."""
    app.url_map.converters["page"] = PageConverter
    pages = Blueprint("front_end", __name__)

    def page(path: str = "") -> Response:
        """A file of the build, or the app's one page for every other address."""
        return _file(folder, path) if _is_file(folder, path) else _index(folder, path)

    page.callers = Callers.EVERYONE  # type: ignore[attr-defined]  # as Routes.on marks its views
    pages.add_url_rule("/", "index", page, methods=["GET"])
    pages.add_url_rule("/<page:path>", "page", page, methods=["GET"])
    app.register_blueprint(pages)


def _is_file(folder: Path, path: str) -> bool:
    if not path or "\0" in path:
        return False
    wanted = (folder / path).resolve()
    return wanted.is_relative_to(folder.resolve()) and wanted.is_file()


def _file(folder: Path, path: str) -> Response:
    response = send_from_directory(folder, path)
    hashed = path.startswith(HASHED_FOLDER)
    response.headers["Cache-Control"] = FOR_EVER if hashed else "no-cache"
    return response


def _index(folder: Path, path: str) -> Response:
    """Never for a missing asset: a script that is a page would be cached as broken."""
    if path.startswith(HASHED_FOLDER) or path.rsplit("/", 1)[-1].endswith((".js", ".css", ".map")):
        abort(404, description=f"{path}: the front end has no such file.")
    if not (folder / "index.html").is_file():
        return Response(NOT_BUILT, status=503, content_type="text/html; charset=utf-8")
    response = send_from_directory(folder, "index.html")
    response.headers["Cache-Control"] = "no-cache"
    return response
