"""`bayleaf demo`: makes an invented shop, keeps it between runs, and serves it on this machine only."""

from __future__ import annotations

import json
import os
import shutil
import time
from pathlib import Path
from typing import Final

from flask import Flask

from bayleaf import demo_plan as plan
from bayleaf.app import create_app, open_parts
from bayleaf.config import Config
from bayleaf.demo_making import Making, make_all, make_practice
from bayleaf.demo_pens import TurnedClock
from bayleaf.planning import start_planning
from bayleaf.reminding import start_reminding
from bayleaf.serving import Listening, ServingFault, is_free, require_free, run

NOTE: Final = "demo.json"
NOTE_FORM: Final = 2
PORTS_TRIED: Final = 40


def run_demo(
    port: int = 8080, *, fresh: bool = False, practice: bool = False, data: Path = Path(".bayleaf-demo")
) -> None:
    """Make the demo if it is not there, serve it, and say what is done meanwhile.

    `practice` makes the short practice job alone.
    """
    say("Bayleaf demo: an invented shop with invented people, on this machine only.")
    require_free((f"127.0.0.1:{port}",))
    ids = prepare_demo(data, fresh=fresh, practice=practice)
    fallback_ports = free_ports(port)
    shop = plan.demo_shop(port, fallback_ports, ids, orders_in(data))
    config = Config(data=data, hosts=plan.demo_hosts(port, shop), demo=shop)
    say("Starting the server ...")
    addresses = addresses_of(port, fallback_ports)
    run(Listening(addresses), lambda: _load(config), lambda: tell_ready(config, port))


def _load(config: Config) -> Flask:
    app = create_app(config)
    start_reminding(app, config.data)  # silent until the demo's office gives a contact address
    start_planning(app, config.data)
    return app


def prepare_demo(data: Path, *, fresh: bool, practice: bool = False) -> dict[str, str]:
    """The ids of the demo's people by name, with everything that they need in `data`."""
    if fresh:
        throw_away(data)
    note = data / NOTE
    if note.is_file():
        say(f"Found the demo of an earlier run in {data}. (--fresh starts anew.)")
        return _read_note(note)
    if (data / "bayleaf.sqlite3").exists():
        raise ServingFault(f"{data}: holds records, but none of a demo. Name another folder.")
    return _make(data, note, practice=practice)


def throw_away(data: Path) -> None:
    """Remove a demo; never a folder that is none."""
    if not data.exists():
        return
    if not (data / NOTE).is_file() and any(data.iterdir()):
        raise ServingFault(f"{data}: is not a demo's folder, so --fresh does not remove it. Name another.")
    say(f"Throwing away the old demo in {data} ...")
    shutil.rmtree(data)


def _make(data: Path, note: Path, *, practice: bool) -> dict[str, str]:
    """In a folder beside, named at the end, so that a demo is there whole or not at all."""
    part = data.with_name(f"{data.name}.making")
    if part.exists():
        shutil.rmtree(part)
    part.mkdir(parents=True, mode=0o700)
    say(f"Making the demo in {data}: keys, people, methods, jobs ...")
    now_ms = time.time_ns() // 1_000_000
    clock = TurnedClock(now_ms)
    making = Making(open_parts(Config(data=part), clock), clock, now_ms, say)
    (make_practice if practice else make_all)(making)
    making.parts.close()
    orders = [job.order for job in ((plan.PRACTICE,) if practice else plan.JOBS)]
    told = {"form": NOTE_FORM, "people": making.people, "jobs": orders}
    (part / NOTE).write_text(json.dumps(told, indent=1), encoding="utf-8")
    _move(part, data)
    return _read_note(note)


def _move(part: Path, data: Path) -> None:
    if data.exists():
        data.rmdir()  # an empty folder of that name is no loss; one that is not empty stops here
    os.replace(part, data)


def _read_note(note: Path) -> dict[str, str]:
    found = json.loads(note.read_text(encoding="utf-8"))
    if found.get("form") != NOTE_FORM:
        raise ServingFault(f"{note}: an other version of the demo. Start anew with --fresh.")
    return {str(name): str(person) for name, person in found["people"].items()}


def orders_in(data: Path) -> list[str]:
    """The orders of the jobs that the demo in a folder was made with."""
    return [str(one) for one in json.loads((data / NOTE).read_text(encoding="utf-8"))["jobs"]]


def free_ports(port: int) -> dict[str, int]:
    """A port of its own for each phone, for browsers that do not resolve its name."""
    found: dict[str, int] = {}
    candidates = iter(range(port + 1, min(port + PORTS_TRIED, 65_536)))
    for slug in plan.PHONES:
        free = next((one for one in candidates if is_free(f"127.0.0.1:{one}")), None)
        if free is not None:
            found[slug] = free
    return found


def addresses_of(port: int, fallback_ports: dict[str, int]) -> list[str]:
    """Loopback only: both families where this machine has both, since `localhost` may be either."""
    ports = [port, *fallback_ports.values()]
    sixth = [f"[::1]:{one}" for one in ports if is_free(f"[::1]:{one}")]
    return [f"127.0.0.1:{one}" for one in ports] + sixth


def tell_ready(config: Config, port: int) -> None:
    """Where to go."""
    if not (config.front_end / "index.html").is_file():
        say("The front end is not built: the pages will tell how to build it.")
    say("")
    say(f"Ready. Open http://localhost:{port} in a browser; everything else is on that page.")
    say("Stop with Ctrl+C. The demo is kept; `bayleaf demo --fresh` starts anew.")


def say(sentence: str) -> None:
    """To whoever waits at the terminal."""
    print(sentence, flush=True)  # noqa: T201  (a command speaks by printing)
