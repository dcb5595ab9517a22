"""Prints every figure beside its floor and what is allowed: `python tests/bench/run.py`.

Names after it (push, tick, scripts, report, board) measure only these. Exit status: 0 if all are met, else 1.
"""

from __future__ import annotations

import sys
from pathlib import Path

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).parents[1])

from bench import board, push, report, scripts, tick

MEASURES = {
    "push": push.measure,
    "tick": tick.measure,
    "scripts": scripts.measure,
    "report": report.measure,
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
        figure = MEASURES[name]()
        print("\n".join(figure.lines()), flush=True)
        met = met and figure.met
    return 0 if met else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
