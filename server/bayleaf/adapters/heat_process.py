"""Plans heat zones in a child process with limits, which is ended when somebody wants it to stop."""

from __future__ import annotations

import json
import os
import queue
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

from bayleaf.heat.model import MODEL_ID
from bayleaf.heat_ports import NotPlanned, Planned

PASSED_ON: Final = ("PATH", "PYTHONPATH", "LD_LIBRARY_PATH", "TMPDIR")
ONE_THREAD: Final = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
LOOK_EVERY_S: Final = 0.3
TIME_S: Final = 1200.0

Told = Callable[[str, int], None]
Stop = Callable[[], bool]


class ProcessPlanner:
    """The port Planner."""

    model = MODEL_ID

    def plan(self, text: str, told: Told, stop: Stop) -> Planned:
        """One child; whoever calls this plans one at a time."""
        with tempfile.TemporaryDirectory(prefix="bayleaf-heat-") as made:
            folder = Path(made)
            (folder / "zone").write_text(text, encoding="utf-8")
            _run(folder, told, stop)
            found = json.loads((folder / "planned.json").read_text(encoding="utf-8"))
            response, field = ((folder / name).read_bytes() for name in ("response", "field"))
            return Planned(**found, response=response, field=field)


def _run(folder: Path, told: Told, stop: Stop) -> None:
    command = [sys.executable, "-m", "bayleaf.adapters.heat_child", str(folder)]
    environment = {name: os.environ[name] for name in PASSED_ON if name in os.environ} | ONE_THREAD
    with (folder / "errors.txt").open("wb") as errors:
        child = subprocess.Popen(  # noqa: S603  (our own program, a folder that we made)
            command, stdout=subprocess.PIPE, stderr=errors, env=environment, cwd=folder
        )
        clock = threading.Timer(TIME_S, child.kill)
        clock.start()
        try:
            last = _listen(child, told, stop)
        finally:
            clock.cancel()
            child.kill()
            child.wait()
    if not last.get("planned"):
        raise _why(last, child.returncode, (folder / "errors.txt").read_text(errors="replace"))


def _listen(child: subprocess.Popen[bytes], told: Told, stop: Stop) -> dict[str, Any]:
    """The last line; progress is told as it comes, and every so often it is asked whether to stop."""
    lines: queue.Queue[bytes] = queue.Queue()
    reader = threading.Thread(target=_read, args=(child, lines), daemon=True)
    reader.start()
    last: dict[str, Any] = {}
    try:
        while True:
            if stop():
                raise NotPlanned("Somebody stopped it.", stopped=True)
            line = _newest(lines)
            if line is None:
                continue
            if not line:
                return last
            last = json.loads(line)
            if "doing" in last:
                told(last["doing"], last["share_permille"])
    finally:
        child.kill()
        reader.join()


def _newest(lines: queue.Queue[bytes]) -> bytes | None:
    """The newest line that is there, or the first within a moment; None if none comes, empty at the end."""
    try:
        found = lines.get(timeout=LOOK_EVERY_S)
        while found and not lines.empty():
            following = lines.get_nowait()
            if not following:
                lines.put(following)
                break
            found = following
    except queue.Empty:
        return None
    return found


def _read(child: subprocess.Popen[bytes], lines: queue.Queue[bytes]) -> None:
    assert child.stdout is not None  # noqa: S101  (asked for above)
    with child.stdout as written:
        for line in written:
            lines.put(line)
    lines.put(b"")


def _why(last: dict[str, Any], code: int, errors: str) -> NotPlanned:
    if "fault" in last:
        return NotPlanned(last["fault"])
    tail = errors.strip().splitlines()[-1:] or [f"ended with {code}"]
    return NotPlanned(f"The planner failed: {tail[0]}")
