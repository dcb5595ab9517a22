"""Many schedules at once, for a night or a change of the rules: `python -m sim.long` from tests/."""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Sequence

from sim.schedule import STEPS, Failed, run, smallest

SAY_EACH_S = 5.0


def main(words: Sequence[str] | None = None) -> int:
    """Plays the schedules, or one again; the exit status says whether all of them held."""
    asked = _asked(words)
    if asked.seed is not None:
        return _again(asked.seed, asked.only)
    failed = _play(range(asked.first, asked.first + asked.schedules))
    return 1 if failed else 0


def _asked(words: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m sim.long", description=__doc__)
    parser.add_argument("--schedules", type=int, default=10_000, help="how many to play (10000)")
    parser.add_argument("--first", type=int, default=0, help="the first seed (0)")
    parser.add_argument("--seed", type=int, help="play this one alone, and tell what happens in it")
    parser.add_argument("--only", default="", help="with --seed: the steps to play, such as 3,8,41")
    return parser.parse_args(words)


def _again(seed: int, only: str) -> int:
    steps = [int(step) for step in only.split(",")] if only else range(STEPS)
    failed = run(seed, steps)
    print(failed if failed is not None else f"seed {seed}: every promise was kept")
    return 1 if failed is not None else 0


def _play(seeds: Sequence[int]) -> list[Failed]:
    failures: list[Failed] = []
    begun = said = time.monotonic()
    for played, seed in enumerate(seeds, 1):
        failed = run(seed)
        if failed is not None:
            failures.append(smallest(failed))
            print(failures[-1], flush=True)
        now = time.monotonic()
        if now - said > SAY_EACH_S or played == len(seeds):
            said = now
            speed = played / (now - begun)
            print(
                f"{played} of {len(seeds)}, seed {seed}: {speed:.1f} a second, {len(failures)} failed",
                flush=True,
            )
    print(f"{len(seeds)} schedules, {len(failures)} failed: {[failed.seed for failed in failures]}")
    return failures


if __name__ == "__main__":
    sys.exit(main())
