"""Registers: which values stand, which one is shown, and which were made under another revision.

A value stands if it is unstruck and no unstruck entry reaches it by a chain of `over`, struck links
included. Only entries of the same kind and key are links; an `over` to another is without effect. Chains
are followed over all revisions, and only then the values that do not answer under the pinned one are put
elsewhere. Shown is the greatest (at_ms, hash) of those not sent back, else of all that stand.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from bayleaf.domain.entries import Entry
from bayleaf.domain.findings import Finding, finding
from bayleaf.domain.fold.log import Log
from bayleaf.domain.fold.revisions import Pinned
from bayleaf.domain.kinds import JOB_REGISTERS, RegisterKey, place_of, register_key, register_place
from bayleaf.domain.state import RegisterState


@dataclass(frozen=True, slots=True)
class Register:
    """A register's values that stand here, the shown one of them, and those that stand elsewhere."""

    shown: Entry | None
    standing: tuple[Entry, ...]
    sent_back: tuple[str, ...]
    elsewhere: tuple[Entry, ...]

    @property
    def answer(self) -> Entry | None:
        """The shown value, unless it is sent back: a value sent back answers nothing."""
        if self.shown is None or self.shown.hash in self.sent_back:
            return None
        return self.shown


Registers = Mapping[RegisterKey, Register]
Standing = Mapping[RegisterKey, list[Entry]]


def order(entry: Entry) -> tuple[int, str]:
    """The order that decides between values that stand side by side, and nothing else."""
    return (entry.at_ms, entry.hash)


def standing_values(log: Log) -> dict[RegisterKey, list[Entry]]:
    """The values that stand in each register that has any entry, whatever revision they were made under."""
    by_key: defaultdict[RegisterKey, dict[str, Entry]] = defaultdict(dict)
    for entry in log.live.values():
        key = register_key(entry)
        if key is not None:
            by_key[key][entry.hash] = entry
    return {key: _standing(values, log) for key, values in by_key.items()}


def _standing(values: Mapping[str, Entry], log: Log) -> list[Entry]:
    unstruck = [entry for key, entry in values.items() if key not in log.struck]
    reached: set[str] = set()
    waiting = list(unstruck)
    while waiting:
        for named in waiting.pop().body["over"]:
            if named in values and named not in reached:
                reached.add(named)
                waiting.append(values[named])
    return [entry for entry in unstruck if entry.hash not in reached]


def shown_of(standing: Iterable[Entry], sent_back: Iterable[str] = ()) -> Entry | None:
    """The value that is shown of those that stand."""
    values = sorted(standing, key=order)
    answering = [entry for entry in values if entry.hash not in sent_back]
    if not values:
        return None
    return (answering or values)[-1]


def read_registers(standing: Standing, log: Log, pinned: Pinned) -> dict[RegisterKey, Register]:
    """Every register that has an entry, as it stands under the pinned methods."""
    return {key: _register(key, values, log, pinned) for key, values in standing.items()}


def _register(key: RegisterKey, values: list[Entry], log: Log, pinned: Pinned) -> Register:
    here: list[Entry] = []
    elsewhere: list[Entry] = []
    for entry in values:
        answers = key[0] in JOB_REGISTERS or _answers(entry, pinned)
        (here if answers else elsewhere).append(entry)
    sent_back = tuple(sorted(entry.hash for entry in here if entry.hash in log.sent_back))
    return Register(shown_of(here, sent_back), tuple(here), sent_back, tuple(elsewhere))


def _answers(entry: Entry, pinned: Pinned) -> bool:
    return pinned.answers(entry.body["method"], entry.body["digest"], entry.body["step"])


def register_states(registers: Registers) -> list[RegisterState]:
    """The registers as card state lists them, sorted by key."""
    return [_state(key, registers[key]) for key in sorted(registers)]


def _state(key: RegisterKey, register: Register) -> RegisterState:
    kind, method, step, ask, point = key
    return {
        "kind": kind,
        "method": method,
        "step": step,
        "ask": ask,
        "point": point,
        "shown": register.shown.hash if register.shown else "",
        "standing": sorted(entry.hash for entry in register.standing),
        "sent_back": list(register.sent_back),
    }


def register_findings(registers: Registers, log: Log) -> Iterator[Finding]:
    """Registers in which several values stand, and overs that reach nothing of their own register."""
    for key, register in registers.items():
        if len(register.standing) > 1:
            yield finding("two_values", register_place(key), (entry.hash for entry in register.standing))
    for entries in log.unstruck.values():
        for entry in entries:
            yield from _idle_overs(entry, log)


def _idle_overs(entry: Entry, log: Log) -> Iterator[Finding]:
    key = register_key(entry)
    if key is None:
        return
    for named in entry.body["over"]:
        target = log.live.get(named)
        if target is not None and register_key(target) != key:
            yield finding("over_without_effect", place_of(entry), [entry.hash, named])
