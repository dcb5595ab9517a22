"""A generated job while it is being written: who writes, what each device has heard, and chance."""

import random
from dataclasses import dataclass, field
from typing import Any

from vectors import methods
from vectors.scene import ADA, MARA, OSKAR, PIM
from vectors.writers import FIRST_AT_MS, Clock, Writer, device

Logged = dict[str, Any]  # an entry as it is written
FAMILIES = (
    ("values", "values_2"),
    ("hold", "hold_2"),
    ("rivets",),
    ("setting",),
    ("heat",),
    ("evidence", "evidence_2"),
    ("lock",),
    ("asked",),
    ("parts",),
    ("computed",),
)
BESIDE: dict[tuple[str, ...], tuple[tuple[str, ...], ...]] = {
    ("asked",): (("values", "values_2"), ("parts",)),
    ("parts",): (("no_maxima",),),
}
ALL_METHODS = [name for family in (*FAMILIES, ("no_maxima",)) for name in family]
NEVER = "e" * 64  # the hash of an entry that never comes


@dataclass
class Job:
    """`families` are the methods that this job is about, each with its revisions."""

    chance: random.Random
    families: list[tuple[str, ...]]
    log: list[Logged] = field(default_factory=list)
    writers: list[Writer] = field(default_factory=list)
    heard: dict[str, int] = field(default_factory=dict)

    def is_about(self, *names: str) -> bool:
        return any(name in family for family in self.families for name in names)

    def steps(self) -> list[tuple[str, Logged]]:
        """Every step of every revision, with the name of its document."""
        return [
            (name, step)
            for family in self.families
            for name in family
            for stage in methods.document(name)["stages"]
            for step in stage["steps"]
        ]

    def seen(self, writer: Writer, *kinds: str) -> list[Logged]:
        """What the device holds: the log as far as it was heard, and its own; of those kinds, if any."""
        reach = self.heard[writer.device]
        held = (e for i, e in enumerate(self.log) if i < reach or e["device"] == writer.device)
        return [entry for entry in held if not kinds or entry["kind"] in kinds]

    def one_of(self, entries: list[Logged]) -> str:
        """The hash of one of them; now and then, or where there is none, one that never comes."""
        if not entries or self.chance.random() < 0.02:
            return NEVER
        return str(self.chance.choice(entries)["hash"])

    def some_of(self, entries: list[Logged]) -> list[str]:
        """The hashes of up to three of them."""
        return sorted({self.one_of(entries) for _ in range(self.chance.randint(1, 3))}) if entries else []

    def envelope(self) -> dict[str, Any]:
        """Now and then another clock, another person on a shared phone, another form of envelope."""
        luck = self.chance.random()
        if luck < 0.1:
            return {"at_ms": FIRST_AT_MS + self.chance.randint(0, 60) * 1000}
        if luck < 0.2:
            return {"by": self.chance.choice([MARA, OSKAR]), "auth": self.chance.choice(["pin", "picked"])}
        return {"v": 2} if luck < 0.21 else {}


def _families(chance: random.Random) -> list[tuple[str, ...]]:
    """Two to four, and often those beside them: what one refers to, and what one is to be compared with."""
    families = chance.sample(FAMILIES, chance.randint(2, 4))
    for chosen in tuple(families):
        if chance.random() < 0.6:
            families += [one for one in BESIDE.get(chosen, ()) if one not in families]
    return families


def new_job(seed: int) -> Job:
    """A job with three to five devices, about some families of methods."""
    chance = random.Random(seed)
    job = Job(chance, _families(chance))
    clock = Clock()
    people = [
        (9, ADA, ["office"]),
        (1, MARA, ["technician"]),
        (2, OSKAR, ["foreman", "technician"]),
        (3, PIM, ["photographer"]),
        (4, chance.choice([MARA, OSKAR]), ["technician"]),
    ]
    for number, by, roles in people[: chance.randint(3, 5)]:
        job.writers.append(Writer(device(number), by, roles, clock, job.log))
        job.heard[device(number)] = 0
    return job
