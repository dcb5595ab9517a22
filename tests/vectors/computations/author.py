"""Writes the scenes out as vectors: `python tests/vectors/computations/author.py`, from the root."""

from __future__ import annotations

import json
import sys
from pathlib import Path

HERE = Path(__file__).parent


def write_all() -> None:
    """One folder per computation, one file per scene; files of scenes that are gone are taken away."""
    sys.path.insert(0, str(HERE.parent.parent))
    from vectors.computations.scenes import (
        bead,
        bond,
        cure,
        drying,
        fasteners,
        grips,
        heat,
        holes,
        pairs,
        picks,
        pieces,
        shape,
    )

    for module in (bead, bond, cure, drying, fasteners, grips, heat, holes, pairs, picks, pieces, shape):
        for computation, cases in module.SCENES.items():
            folder = HERE / computation
            folder.mkdir(exist_ok=True)
            for old in folder.glob("*.json"):
                old.unlink()
            for name, written in cases.items():
                text = json.dumps(written, indent=1, ensure_ascii=False)
                (folder / f"{name}.json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    write_all()
