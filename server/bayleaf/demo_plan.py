"""The invented shop of the demo: its people, its devices, its job. Nothing here is real."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from bayleaf.config import DemoDevice, DemoPerson, DemoShop, ShownJob

SHOP: Final = "Demo bay"
OFFICE_PASSWORD: Final = "leaf-on-the-bench"  # noqa: S105  (invented, and shown on the demo's front page)
SOAK_S: Final = 90


@dataclass(frozen=True)
class DemoJob:
    """One of the invented jobs; `what` says how far it is."""

    order: str
    vin: str
    vehicle: str
    part: str
    place: str
    what: str


_FRAME_HALF: Final = "left half of an invented rear-aperture frame"
_MINIBUS: Final = "invented electric minibus"
PRACTICE: Final = DemoJob(
    "DEMO-1",
    "DEMO0000000000001",
    "invented delivery van",
    "left half of an invented bracket",
    "hoist 1",
    "a short method to practise on",
)
UNTOUCHED: Final = DemoJob(
    "DEMO-2", "DEMO0000000000002", _MINIBUS, _FRAME_HALF, "hoist 2", "removal and fitting, untouched"
)
HALF_DONE: Final = DemoJob(
    "DEMO-3", "DEMO0000000000003", _MINIBUS, _FRAME_HALF, "hoist 3", "half way through, with a heat run"
)
FILED: Final = DemoJob("DEMO-4", "DEMO0000000000004", _MINIBUS, _FRAME_HALF, "hoist 4", "done and filed")
JOBS: Final = (PRACTICE, UNTOUCHED, HALF_DONE, FILED)
ORDER, VIN, PART = PRACTICE.order, PRACTICE.vin, PRACTICE.part


@dataclass(frozen=True)
class Invented:
    """Somebody who does not exist."""

    name: str
    role: str
    pin: str
    does: str
    qualifications: tuple[str, ...] = ()


TECHNICIAN: Final = Invented(
    "Mara Ilves",
    "technician",
    "2580",
    "Works through the card: ticks, readings, rivets, the heat run.",
    ("high_voltage", "measuring"),
)
SECOND: Final = Invented(
    "Oskar Teal",
    "technician",
    "1470",
    "The second person at the car: countersigns by PIN on Mara's phone, or on a phone of their own.",
    ("high_voltage", "restraints"),
)
PHOTOGRAPHER: Final = Invented(
    "Pim Reed", "photographer", "3690", "Sees which photos are wanted, and attaches them."
)
OFFICE: Final = Invented(
    "Ada Quill", "office", "7410", "Opens the job, watches what has arrived, sends back, accepts, files."
)
PAINTER: Final = Invented(
    "Wim Tann",
    "technician",
    "8520",
    "Paints; countersigns the highest metal temperature in the booth, by PIN on Mara's phone.",
    ("paint",),
)
PEOPLE: Final = (TECHNICIAN, PHOTOGRAPHER, SECOND, OFFICE, PAINTER)
CAST: Final[Mapping[str, Invented]] = {
    "mara": TECHNICIAN,
    "oskar": SECOND,
    "pim": PHOTOGRAPHER,
    "wim": PAINTER,
    "ada": OFFICE,
}
PHONES: Final[Mapping[str, Invented]] = {
    "technician": TECHNICIAN,
    "photographer": PHOTOGRAPHER,
    "second": SECOND,
}
PHONE_NAMES: Final[Mapping[str, str]] = {
    "technician": "technician's phone",
    "photographer": "photographer's phone",
    "second": "second technician's phone",
}


def demo_shop(
    port: int, fallback_ports: Mapping[str, int], ids: Mapping[str, str], orders: Iterable[str] = (ORDER,)
) -> DemoShop:
    """The shop at these ports, with the jobs of these orders; `ids` are the people's ids by name."""
    return DemoShop(
        shop=SHOP,
        office_name=OFFICE.name,
        office_password=OFFICE_PASSWORD,
        office_url=f"http://localhost:{port}/office",
        people=tuple(DemoPerson(ids[one.name], one.name, one.role, one.pin, one.does) for one in PEOPLE),
        devices=tuple(
            DemoDevice(
                slug=slug,
                name=PHONE_NAMES[slug],
                person=ids[whose.name],
                url=f"http://{slug}.localhost:{port}/",
                fallback_url=f"http://localhost:{fallback_ports[slug]}/" if slug in fallback_ports else "",
            )
            for slug, whose in PHONES.items()
        ),
        slug_of=_slug_of(port, fallback_ports),
        order=ORDER,
        part=PART,
        soak_s=SOAK_S,
        jobs=tuple(ShownJob(one.order, one.part, one.what) for one in JOBS if one.order in set(orders)),
    )


def demo_hosts(port: int, shop: DemoShop) -> frozenset[str]:
    """Every Host that the demo answers to."""
    own = {f"{name}:{port}" for name in ("localhost", "127.0.0.1", "office.localhost")}
    return frozenset(own | set(shop.slug_of))


def _slug_of(port: int, fallback_ports: Mapping[str, int]) -> dict[str, str]:
    by_name = {f"{slug}.localhost:{port}": slug for slug in PHONES}
    return by_name | {f"localhost:{other}": slug for slug, other in fallback_ports.items()}
