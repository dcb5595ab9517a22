"""Sets a report in type by typst, in a child process with limits of memory and time; one at a time."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from bayleaf.report_ports import NotSet, Pictures, SetReport, no_path

TEMPLATES: Final = Path(__file__).parent / "templates"
MIB: Final = 1024 * 1024
PASSED_ON: Final = ("PATH", "PYTHONPATH", "LD_LIBRARY_PATH", "TMPDIR")

Told = Callable[[int, int], None]


@dataclass(frozen=True)
class Limits:
    """What one report may take."""

    memory_bytes: int = 2048 * MIB
    time_s: int = 180


Press = Callable[[Path, Limits, Told | None], dict[str, Any]]


class TypstTypesetter:
    """The port Typesetter. Where the photos are too much for the limits, the report is set without them."""

    def __init__(self, limits: Limits | None = None, press: Press | None = None) -> None:
        self._limits = limits or Limits()
        self._press = press or run_press
        self._one_at_a_time = threading.Lock()

    def typeset(self, contents: Mapping[str, Any], pictures: Pictures, told: Told | None = None) -> SetReport:
        """See the port."""
        with self._one_at_a_time:
            try:
                return self._set(contents, pictures, told)
            except OverLimit:
                if not contents["pictures"]:
                    raise
                return self._set(contents, Pictures(pictures.path, _nothing, pictures.drawings), told)

    def _set(self, contents: Mapping[str, Any], pictures: Pictures, told: Told | None) -> SetReport:
        with tempfile.TemporaryDirectory(prefix="bayleaf-report-") as made:
            folder = Path(made)
            _lay_out(folder, contents, pictures, self._limits)
            outcome = self._press(folder, self._limits, told)
            pdf = (folder / "report.pdf").read_bytes()
            return SetReport(pdf, outcome["peak_bytes"], outcome["faults"])


class OverLimit(NotSet):
    """The child was ended by one of its limits."""


def _nothing(_: str) -> bytes:
    return b""


def _lay_out(folder: Path, contents: Mapping[str, Any], pictures: Pictures, limits: Limits) -> None:
    """What the child reads: templates, drawings, photos that lie in no file, and the job itself."""
    shutil.copytree(TEMPLATES, folder, dirs_exist_ok=True)
    for name in ("photos", "drawings", "raw"):
        (folder / name).mkdir()
    for sha256 in contents["drawings"]:
        (folder / "drawings" / f"{sha256[:16]}.svg").write_bytes(pictures.drawings[sha256])
    job = {
        "contents": contents,
        "photos": [_photo_path(folder, pictures, one["sha256"]) for one in contents["pictures"]],
        "drawings": [sha256[:16] for sha256 in contents["drawings"]],
        "memory_bytes": limits.memory_bytes,
        "cpu_s": 2 * limits.time_s,
    }
    (folder / "job.json").write_text(json.dumps(job), encoding="utf-8")


def _photo_path(folder: Path, pictures: Pictures, sha256: str) -> str:
    if pictures.read is _nothing:
        return ""
    path = no_path(pictures.path(sha256))
    if path is None:
        path = folder / "raw" / sha256
        path.write_bytes(pictures.read(sha256))
    return str(path.resolve())


def run_press(folder: Path, limits: Limits, told: Told | None) -> dict[str, Any]:
    """What the child said last, if it set the report."""
    command = [sys.executable, "-m", "bayleaf.report.press", str(folder)]
    environment = {name: os.environ[name] for name in PASSED_ON if name in os.environ}
    last: dict[str, Any] = {}
    with (folder / "errors.txt").open("wb") as errors:
        child = subprocess.Popen(  # noqa: S603  (our own program, a folder that we made)
            command, stdout=subprocess.PIPE, stderr=errors, env=environment, cwd=folder
        )
        clock = threading.Timer(limits.time_s, child.kill)
        clock.start()
        try:
            last = _listen(child, told)
        finally:
            clock.cancel()
            child.kill()
            child.wait()
    if last.get("set"):
        return last
    raise _why(last, child.returncode, (folder / "errors.txt").read_text(errors="replace"), limits)


def _listen(child: subprocess.Popen[bytes], told: Told | None) -> dict[str, Any]:
    """The last line; progress is passed on."""
    last: dict[str, Any] = {}
    assert child.stdout is not None  # noqa: S101  (asked for above)
    with child.stdout as lines:
        for line in lines:
            last = json.loads(line)
            if told is not None and "done" in last:
                told(last["done"], last["of"])
    child.wait()
    return last


def _why(last: dict[str, Any], code: int, errors: str, limits: Limits) -> NotSet:
    """Why there is no report."""
    if "fault" in last:
        return OverLimit(last["fault"]) if "memory" in last["fault"] else NotSet(last["fault"])
    if code < 0 or "memory" in errors:
        return OverLimit(
            f"It took over {limits.time_s} s or over {limits.memory_bytes // MIB} MB, and was ended ({code})."
        )
    tail = errors.strip().splitlines()[-1:] or [f"it ended with {code}"]
    return NotSet(f"The typesetter failed: {tail[0]}")
