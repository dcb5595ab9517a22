"""The child process that sets a report: `python -m bayleaf.report.press FOLDER`.

FOLDER holds `job.json` (contents, and where each photo lies), `drawings/` and a copy of the templates. It
writes `report.pdf` there. On its standard output stands one JSON object a line: progress, then the outcome.
"""

from __future__ import annotations

import json
import resource
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any, Final

FONTS: Final = Path(__file__).parent / "fonts"
STANDARDS: Final = ("a-2a", "ua-1")
FILE_BYTES: Final = 256 * 1024 * 1024
THREADS: Final = 2
BLANK: Final = b"#image(sys.inputs.file)"
KIB: Final = 1024


def main() -> int:
    """0 if the report was set; else the last line says why not."""
    folder = Path(sys.argv[1])
    job = json.loads((folder / "job.json").read_text(encoding="utf-8"))
    limit_this_process(job["memory_bytes"], job["cpu_s"])
    try:
        tell(**set_report(folder, job))
    except MemoryError:
        tell(fault="It needs more memory than it may have.")
        return 1
    except _typst_error() as error:
        tell(fault=f"The typesetter refused it: {error}")
        return 1
    return 0


def tell(**line: Any) -> None:
    """A line for the parent."""
    sys.stdout.write(json.dumps(line) + "\n")
    sys.stdout.flush()


def limit_this_process(memory_bytes: int, cpu_s: int) -> None:
    """Hostile input can cost this process, never the server."""
    for limit, most in (
        (resource.RLIMIT_AS, memory_bytes),
        (resource.RLIMIT_CPU, cpu_s),
        (resource.RLIMIT_FSIZE, FILE_BYTES),
        (resource.RLIMIT_CORE, 0),
    ):
        resource.setrlimit(limit, (most, most))


def set_report(folder: Path, job: dict[str, Any]) -> dict[str, Any]:
    """Shrinks the photos, tries the drawings, sets the pages."""
    contents = job["contents"]
    faults = _photos(folder, contents["pictures"], job["photos"])
    compiler = _Compiler(folder)
    contents["drawn"] = [name for name in job["drawings"] if compiler.draws(f"drawings/{name}.svg")]
    (folder / "data.json").write_text(json.dumps(contents), encoding="utf-8")
    pdf = compiler.pdf(contents["made_ms"] // 1000)
    (folder / "report.pdf").write_bytes(pdf)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * KIB
    return {"set": True, "bytes": len(pdf), "peak_bytes": peak, "faults": faults}


def _photos(folder: Path, pictures: list[dict[str, Any]], paths: list[str]) -> dict[str, str]:
    """Gives every picture its file, or the reason why it has none."""
    from bayleaf.report.pictures import BadPicture, edge_for, shrink

    edge = edge_for(len(pictures))

    def shrunk(place: int) -> tuple[str, str]:
        name = f"photos/{place}.jpg"
        if not paths[place]:
            return "", "Left out, so that the report fits into its memory; its bytes are in the dossier."
        try:
            shrink(Path(paths[place]), pictures[place]["sha256"], folder / name, edge)
        except (BadPicture, OSError) as fault:
            return "", str(fault)
        return name, ""

    with ThreadPoolExecutor(THREADS) as pool:
        for place, (file, fault) in enumerate(pool.map(shrunk, range(len(pictures)))):
            pictures[place].update(file=file, fault=fault)
            tell(done=place + 1, of=len(pictures))
    return {one["sha256"]: one["fault"] for one in pictures if one["fault"]}


class _Compiler:
    """The typesetter over one folder, with the report's own fonts and no others of this machine."""

    def __init__(self, folder: Path) -> None:
        import typst

        self._typst = typst
        self._folder = folder
        self._fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(FONTS)])

    def draws(self, name: str) -> bool:
        """Whether a drawing can be drawn at all; a report must not fail for one."""
        alone = self._typst.Compiler(root=str(self._folder), font_paths=self._fonts, ignore_system_fonts=True)
        try:
            alone.compile(BLANK, format="pdf", sys_inputs={"file": name})
        except self._typst.TypstError:
            return False
        return True

    def pdf(self, made_s: int) -> bytes:
        """PDF/A-2a; a warning (a face that is not here) is a fault."""
        pages = self._typst.Compiler(
            self._folder / "main.typ",
            root=self._folder,
            font_paths=self._fonts,
            ignore_system_fonts=True,
        )
        pdf, warnings = pages.compile_with_warnings(
            format="pdf", pdf_standards=list(STANDARDS), timestamp=made_s
        )
        if warnings:
            raise self._typst.TypstError("; ".join(one.message for one in warnings), "")
        assert isinstance(pdf, bytes)  # noqa: S101  (one file for the format pdf)
        return pdf


def _typst_error() -> type[Exception]:
    import typst

    return typst.TypstError


if __name__ == "__main__":
    sys.exit(main())
