"""Reads a trace of strace: which file was written or synced, which answer was sent, in what order."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

TRACED = "fsync,fdatasync,sendto,sendmsg,write,writev,pwrite64"
SYNCS = ("fsync", "fdatasync")
_LINE = re.compile(r"(?P<pid>\d+) +(?P<rest>.*)")
_CALL = re.compile(r"(?P<name>\w+)\(\d+<(?P<target>[^>]*)>")
_RESUMED = re.compile(r"<\.\.\. (?P<name>\w+) resumed>(?P<rest>.*)")


@dataclass(frozen=True)
class Call:
    """One system call, as strace wrote it; `target` is the file or connection it was made on."""

    name: str
    target: str
    line: str

    @property
    def syncs(self) -> bool:
        """Whether it put a file on disk, and said so."""
        return self.name in SYNCS and self.line.endswith("= 0")

    @property
    def writes_file(self) -> bool:
        """Whether it wrote to a file by its path, not to a connection, a pipe or a terminal."""
        return self.name.startswith(("write", "pwrite")) and self.target.startswith("/")

    @property
    def answers(self) -> bool:
        """Whether it sent the head of an HTTP answer."""
        return self.target.startswith(("TCP", "socket")) and '"HTTP/1.1 ' in self.line


def calls(trace: Iterable[str]) -> Iterator[Call]:
    """In the order in which they took effect: a sync when it returned, anything else when it began.

    strace parts a call into two lines where another thread's came between.
    """
    begun: dict[str, str] = {}
    for line in trace:
        found = _LINE.match(line.strip())
        if found is None:
            continue
        pid, rest = found["pid"], found["rest"]
        resumed = _RESUMED.match(rest)
        if resumed is not None:
            whole = begun.pop(pid, "") + resumed["rest"]
            if resumed["name"] in SYNCS:
                yield from _call(whole)
        elif rest.endswith("<unfinished ...>"):
            begun[pid] = rest.removesuffix("<unfinished ...>")
            if not begun[pid].startswith(SYNCS):
                yield from _call(begun[pid])
        else:
            yield from _call(rest)


def _call(line: str) -> Iterator[Call]:
    found = _CALL.match(line)
    if found is not None:
        yield Call(found["name"], found["target"], line)


def fault_of(made: list[Call], wanted: str) -> str:
    """Why these calls, made while one request was served, do not keep the promise; empty if they do.

    A file whose path has `wanted` in it was written and then synced, and nothing that was written to any
    file in this time was unsynced when the answer was sent.
    """
    at = next((at for at, call in enumerate(made) if call.answers), None)
    if at is None:
        return "no answer was sent"
    before = made[:at]
    unsynced = [path for path in written(before) if not _synced_after_last_write(before, path)]
    if unsynced:
        return f"the answer was sent before the fsync of {', '.join(unsynced)}"
    if not any(wanted in path for path in written(before)):
        return f"no file with {wanted} in its path was written before the answer"
    return ""


def written(made: list[Call]) -> list[str]:
    """The files that were written, each once."""
    return list(dict.fromkeys(call.target for call in made if call.writes_file))


def _synced_after_last_write(made: list[Call], path: str) -> bool:
    last = max(at for at, call in enumerate(made) if call.target == path and call.writes_file)
    return any(call.syncs and call.target == path for call in made[last:])
