"""The child process that plans a heat zone: `python -m bayleaf.adapters.heat_child FOLDER`.

FOLDER holds `zone`, the document's text. It writes `planned.json` and the gzipped `response` and `field`
there. On its standard output stands one JSON object a line: what is done and the share of it, then the end.
"""

from __future__ import annotations

import json
import os
import resource
import sys
from pathlib import Path
from typing import Any, Final

MEMORY_BYTES: Final = 2 * 1024**3
CPU_S: Final = 900
FILE_BYTES: Final = 64 * 1024**2
NICER: Final = 10  # requests come first


def main() -> int:
    """0 if the zone was planned; else the last line says why not."""
    folder = Path(sys.argv[1])
    _limit_this_process()
    from bayleaf.heat.faults import ZoneFault

    try:
        _plan(folder)
    except ZoneFault as fault:
        tell(fault=str(fault))
        return 1
    except MemoryError:
        tell(fault="It needs more memory than a plan may have: give it larger cells, or fewer layers.")
        return 1
    tell(planned=True)
    return 0


def tell(**line: Any) -> None:
    """A line for the parent."""
    sys.stdout.write(json.dumps(line) + "\n")
    sys.stdout.flush()


def _limit_this_process() -> None:
    """A zone that asks for too much costs this process, never the server."""
    os.nice(NICER)
    for limit, most in (
        (resource.RLIMIT_AS, MEMORY_BYTES),
        (resource.RLIMIT_CPU, CPU_S),
        (resource.RLIMIT_FSIZE, FILE_BYTES),
        (resource.RLIMIT_CORE, 0),
    ):
        resource.setrlimit(limit, (most, most))


def _plan(folder: Path) -> None:
    from bayleaf.heat.planned import planned_of
    from bayleaf.heat.zone_document import read_zone

    zone = read_zone((folder / "zone").read_text(encoding="utf-8"))
    made = planned_of(zone, lambda doing, share: tell(doing=doing, share_permille=round(1000 * share)))
    (folder / "response").write_bytes(made["response"])
    (folder / "field").write_bytes(made["field"])
    texts = {"sentence": made["sentence"], "figures": made["figures"], "answer": made["answer"]}
    (folder / "planned.json").write_text(json.dumps(texts), encoding="utf-8")


if __name__ == "__main__":
    sys.exit(main())
