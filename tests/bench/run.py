"""Prints every figure beside its floor and what is allowed: `python tests/bench/run.py`.

Names after it (push, pull, tick, shown, compute, start, scripts, uploads, report, checking, board) measure
only these, best each alone on a machine that does nothing else. Exit status: 0 if all are met, else 1.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).parents[1])

from bench import board, checking, cold_start, compute, pull, push, report, scripts, shown, tick, uploads

MEASURES = {
    "push": push.measure,
    "pull": pull.measure,
    "tick": tick.measure,
    "shown": shown.measure,
    "compute": compute.measure,
    "start": cold_start.measure,
    "scripts": scripts.measure,
    "uploads": uploads.measure,
    "report": report.measure,
    "checking": checking.measure,
    "board": board.measure,
}


def main(wanted: list[str]) -> int:
    """The figures asked for, or all."""
    unknown = [name for name in wanted if name not in MEASURES]
    if unknown:
        print(f"{unknown[0]}: found no such measurement, allowed are {', '.join(MEASURES)}")
        return 2
    met = True
    for name in wanted or MEASURES:
        before = os.getloadavg()[0]
        figure = MEASURES[name]()
        print("\n".join(figure.lines()))
        print(f"    load average {before:.1f} before, {os.getloadavg()[0]:.1f} after", flush=True)
        met = met and figure.met
    return 0 if met else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
