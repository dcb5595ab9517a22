"""What a server is told at its start: where its data are, by which names it is reached, and if by HTTPS."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

PACKAGED_FRONT_END = Path(__file__).parent / "front_end"


@dataclass(frozen=True)
class DemoDevice:
    """One of the demo's phones: an origin of its own in the same browser."""

    slug: str
    name: str
    person: str
    url: str
    fallback_url: str


@dataclass(frozen=True)
class DemoPerson:
    """An invented person; their PIN stands on the demo's front page."""

    person: str
    name: str
    role: str
    pin: str
    does: str


@dataclass(frozen=True)
class ShownJob:
    """One of the demo's invented jobs, and how far it is."""

    order: str
    part: str
    what: str


@dataclass(frozen=True)
class DemoShop:
    """The invented shop of `bayleaf demo`. `slug_of` says which Host is which device."""

    shop: str
    office_name: str
    office_password: str
    office_url: str
    people: tuple[DemoPerson, ...]
    devices: tuple[DemoDevice, ...]
    slug_of: dict[str, str]
    order: str
    part: str
    soak_s: int
    jobs: tuple[ShownJob, ...] = ()


@dataclass(frozen=True)
class Config:
    """`hosts` are the Host headers that are answered: lower case, with the port where one shows.

    `behind_proxy`: the caller's address is the one that the one proxy before us saw.
    """

    data: Path
    hosts: frozenset[str] = field(default_factory=lambda: frozenset({"localhost"}))
    https: bool = False
    behind_proxy: bool = False
    database_url: str = ""
    demo: DemoShop | None = None
    front_end: Path = PACKAGED_FRONT_END

    @property
    def database(self) -> str:
        """The database's URL; without one, SQLite in the data folder."""
        return self.database_url or f"sqlite:///{(self.data / 'bayleaf.sqlite3').resolve()}"

    def device_slug(self, host: str) -> str:
        """Which of the demo's devices a Host is; empty for the office and outside the demo."""
        return self.demo.slug_of.get(host.lower(), "") if self.demo is not None else ""


def hosts_of(name: str, port: int) -> frozenset[str]:
    """The Host headers of a server of this name: with its port, and behind a proxy without."""
    plain = name.lower().rstrip(".")
    return frozenset({plain, f"{plain}:{port}"})


def is_loopback_name(name: str) -> bool:
    """Whether a name never leaves this machine."""
    host = name.lower().rsplit(":", 1)[0] if name.count(":") == 1 else name.lower()
    return host in {"localhost", "127.0.0.1", "[::1]"} or host.endswith(".localhost")
