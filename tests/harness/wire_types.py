"""Makes web/src/core/wire_types.ts from the schemas that the app's OpenAPI document tells.

Run as a command it writes the file; the test that compares the file with what would be written names it.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from harness.node import NODE_ENV, node_binary
from harness.server import bench

WEB = Path(__file__).parents[2] / "web"
WIRE_TYPES = WEB / "src" / "core" / "wire_types.ts"
MEND = "python tests/harness/wire_types.py"


def entry_schemas() -> dict[str, Any]:
    """The schema `Entry` of the served document, and every schema that it leads to."""
    with TemporaryDirectory() as folder:
        server = bench(Path(folder))
        told = server.client().get("/api/openapi.json").get_json()["components"]["schemas"]
        server.close()
    return {name: told[name] for name in _reached_from("Entry", told)}


def _reached_from(name: str, told: dict[str, Any]) -> list[str]:
    found, waiting = [], [name]
    while waiting:
        at = waiting.pop()
        if at not in found:
            found.append(at)
            waiting += _named_in(told[at])
    return found


def _named_in(schema: Any) -> list[str]:
    """The schemas that a schema refers to, anywhere inside."""
    if isinstance(schema, list):
        return [name for one in schema for name in _named_in(one)]
    if not isinstance(schema, dict):
        return []
    here = [str(schema["$ref"]).rsplit("/", 1)[1]] if "$ref" in schema else []
    return here + [name for one in schema.values() for name in _named_in(one)]


def wire_types() -> str:
    """The TypeScript of these schemas."""
    made = subprocess.run(
        [str(node_binary()), "build/wire_types.ts"],
        cwd=WEB,
        env=NODE_ENV,
        input=json.dumps(entry_schemas(), sort_keys=True),
        capture_output=True,
        text=True,
        check=False,
    )
    if made.returncode != 0:
        raise RuntimeError(f"web/build/wire_types.ts: {made.stderr}")
    return made.stdout


if __name__ == "__main__":
    WIRE_TYPES.write_text(wire_types(), encoding="utf-8")
    print(f"written: {WIRE_TYPES.relative_to(WEB.parent)}")
