"""Writes the vectors out: `python tests/vectors/author.py` plays every scene into tests/vectors/fold/.

What must hold is what a scene returns, written by hand. The state is added from the fold, and only when
everything that must hold does; a scene that the fold contradicts is not written, and is named.
"""

import importlib
import json
import pkgutil
import sys
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))  # so that it can be started as a file

from bayleaf.canonical.form import dumps  # noqa: E402  # after the path
from bayleaf.domain.entries import entry_of  # noqa: E402
from bayleaf.domain.fold import fold  # noqa: E402
from bayleaf.domain.method import methods_of  # noqa: E402
from vectors import methods, scenes  # noqa: E402
from vectors.envelopes import envelope_vectors  # noqa: E402
from vectors.scene import BEHAVIOURS, Behaviour, Scene, at_pointer, pointers  # noqa: E402

FOLDER = HERE / "fold"


def behaviours() -> list[Behaviour]:
    """Every behaviour of every module of scenes."""
    for module in pkgutil.iter_modules(scenes.__path__):
        importlib.import_module(f"vectors.scenes.{module.name}")
    return list(BEHAVIOURS.values())


def text_of(behaviour: Behaviour) -> str:
    """The vector's file; raises ValueError where the fold contradicts what must hold."""
    scene = Scene()
    expect = behaviour.play(scene)
    held = methods_of(methods.documents(behaviour.methods))
    state = fold(held, [entry_of(entry) for entry in scene.log])
    expect = pointers(expect, state)
    wrong = [
        f"  {pointer}\n    must be {json.dumps(value)}\n    is      {json.dumps(at_pointer(state, pointer))}"
        for pointer, value in expect.items()
        if at_pointer(state, pointer) != value
    ]
    if wrong or not expect:
        raise ValueError(f"{behaviour.name}: the fold says otherwise\n" + "\n".join(wrong))
    return _laid_out(behaviour, scene.log, expect, dumps(state))


def _laid_out(behaviour: Behaviour, entries: list[dict[str, Any]], expect: dict[str, Any], state: str) -> str:
    """One entry and one expectation a line, so that a change is seen as what it is."""
    entry_lines = ",\n".join(f"  {dumps(entry)}" for entry in entries)
    expect_lines = ",\n".join(f"  {json.dumps(key)}: {dumps(value)}" for key, value in expect.items())
    return (
        f'{{\n "about": {json.dumps(behaviour.about)},\n "methods": {json.dumps(behaviour.methods)},\n'
        f' "entries": [\n{entry_lines}\n ],\n "expect": {{\n{expect_lines}\n }},\n "state": {state}\n}}\n'
    )


def main() -> int:
    """Writes all; 1 if any could not be."""
    failed = 0
    FOLDER.mkdir(exist_ok=True)
    for behaviour in behaviours():
        try:
            text = text_of(behaviour)
        except (ValueError, LookupError) as error:
            failed += 1
            print(error)
            continue
        (FOLDER / f"{behaviour.name}.json").write_text(text, encoding="utf-8")
    for name, text in envelope_vectors().items():
        (HERE / "entries" / f"{name}.json").write_text(text, encoding="utf-8")
    print(f"{len(BEHAVIOURS) - failed} vectors written to {FOLDER}, {failed} not")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
