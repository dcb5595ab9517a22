"""What a shop's server needs to be well, each looked at by itself: how it stands, and what mends it."""

from __future__ import annotations

import shutil
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Final, Literal

from cryptography import x509
from cryptography.x509.oid import ExtensionOID
from sqlalchemy import Engine, func, inspect, select
from sqlalchemy.exc import SQLAlchemyError

from bayleaf.adapters.database import open_engine, reading
from bayleaf.adapters.heat_tables import heat_plan
from bayleaf.adapters.key_files import PUSH_KEY
from bayleaf.adapters.migrating import StoreFault, head_revision, revision_of
from bayleaf.adapters.push_tables import setting
from bayleaf.adapters.signatures import PrivateKey
from bayleaf.adapters.sql_heat import SqlHeatPlans
from bayleaf.adapters.sql_push import SqlSettings
from bayleaf.adapters.tables import entry
from bayleaf.config import PACKAGED_FRONT_END, Config, is_loopback_name
from bayleaf.heat_ports import DONE, FAILED, UNDER_WAY
from bayleaf.usecases.contact import SENTENCES, contact_fault, contact_of

GB: Final = 1024**3
LEAST_FREE: Final = GB
ENOUGH_FREE: Final = 5 * GB
SOON_DAYS: Final = 14
OTHERS: Final = 0o077
MS_PER_S: Final = 1000
MS_PER_MIN: Final = 60 * MS_PER_S
LATE_PLAN_MS: Final = 30 * MS_PER_MIN
AHEAD_MS: Final = 60_000
PUT_BACK: Final = "Look at the disk; put a backup back."

State = Literal["well", "look", "mend"]


@dataclass(frozen=True)
class Line:
    """`mend` is what to do; `look`: works today, and will not for long, or only a person can judge."""

    what: str
    state: State
    found: str
    mend: str = ""


@dataclass(frozen=True)
class Patient:
    """The shop as `serve` is started for it."""

    data: Path
    name: str = ""
    cert: Path | None = None
    database_url: str = ""
    front_end: Path = PACKAGED_FRONT_END


def examine(patient: Patient) -> list[Line]:
    """Every check, the data folder first; nothing is changed."""
    lines = [_folder(patient.data), _disk(patient.data), _push_key(patient.data)]
    config = Config(data=patient.data, database_url=patient.database_url)
    if patient.database_url or (patient.data / "bayleaf.sqlite3").is_file():
        engine = open_engine(config.database)
        try:
            lines += [_store(engine), _contact(engine), _clock(engine), _heat_plans(engine)]
        finally:
            engine.dispose()
    else:
        lines.append(
            Line("store", "mend", "there is no store here", "Start `bayleaf serve`, or name --data.")
        )
    return [*lines, _certificate(patient), _front_end(patient.front_end)]


def _folder(data: Path) -> Line:
    if not data.is_dir():
        return Line("data folder", "mend", f"{data} is not there", "Name the shop's folder by --data.")
    open_to = data.stat().st_mode & OTHERS
    if open_to:
        return Line("data folder", "mend", f"{data} is open to others", f"It holds keys: chmod 700 {data}")
    missing = [name for name in ("seal.pem", "secret") if not (data / name).is_file()]
    if missing:
        return Line("data folder", "mend", f"{' and '.join(missing)} missing", "Put it back from a backup.")
    return Line("data folder", "well", str(data))


def _disk(data: Path) -> Line:
    free = shutil.disk_usage(data if data.is_dir() else Path()).free
    found = f"{free / GB:.1f} GB free"
    if free < LEAST_FREE:
        return Line("disk", "mend", found, "Free some space now: photos and records need it.")
    if free < ENOUGH_FREE:
        return Line("disk", "look", found, "A day of photos takes about 1 GB: free some space soon.")
    return Line("disk", "well", found)


def _push_key(data: Path) -> Line:
    path, what = data / PUSH_KEY, "key of calls"
    if not path.is_file():
        return Line(what, "look", f"{PUSH_KEY} is not there yet", "`bayleaf serve` makes it at its start.")
    try:
        PrivateKey.of_pem(path.read_text(encoding="ascii"))
    except (ValueError, OSError) as error:
        return Line(what, "mend", f"{path}: {error}", "Put it back from a backup; phones know the old key.")
    if path.stat().st_mode & OTHERS:
        return Line(what, "mend", f"{path} is open to others", f"chmod 600 {path}")
    return Line(what, "well", str(path))


def _store(engine: Engine) -> Line:
    try:
        found, head = revision_of(engine), head_revision()
    except (SQLAlchemyError, StoreFault) as error:
        return Line("store", "mend", str(error).splitlines()[0], PUT_BACK)
    if found == head:
        return Line("store", "well", f"revision {found}")
    mend = "The next start of `bayleaf serve` brings it up to date, after a copy."
    return Line("store", "look", f"revision {found or 'none'}, the program's is {head}", mend)


def _contact(engine: Engine) -> Line:
    try:
        contact = contact_of(SqlSettings(engine)) if _has(engine, setting.name) else ""
    except SQLAlchemyError as error:
        return _unreadable("contact address", error)
    fault = contact_fault(contact)
    if fault:
        mend = "Set it in the office, under Devices; until then no phone is called."
        return Line("contact address", "mend", SENTENCES[fault], mend)
    return Line("contact address", "well", contact)


def _clock(engine: Engine) -> Line:
    now_ms = time.time_ns() // 1_000_000
    try:
        newest_ms = _newest_ms(engine) if _has(engine, entry.name) else 0
    except SQLAlchemyError as error:
        return _unreadable("clock", error)
    now = datetime.fromtimestamp(now_ms // MS_PER_S, UTC).isoformat(" ")
    if newest_ms > now_ms + AHEAD_MS:
        mend = "This clock was set back, or ran ahead before: set it by the network's time (NTP)."
        return Line("clock", "mend", f"{now}, and the newest record was received after that", mend)
    return Line("clock", "look", now, "Compare with a clock that is right: every run is timed by it.")


def _heat_plans(engine: Engine) -> Line:
    """A plan takes seconds; one that is under way for long has nobody who makes it, or a fault of ours."""
    what, now_ms = "heat plans", time.time_ns() // 1_000_000
    try:
        rows = SqlHeatPlans(engine).plans() if _has(engine, heat_plan.name) else ()
    except SQLAlchemyError as error:
        return _unreadable(what, error)
    late = [row for row in rows if row.state in UNDER_WAY and now_ms - row.asked_ms > LATE_PLAN_MS]
    if late:
        mend = "`bayleaf serve` makes them: see that it runs. Else cancel the plan in the office, under Heat."
        return Line(what, "look", f"{len(late)} asked for over {LATE_PLAN_MS // MS_PER_MIN} min ago", mend)
    failed = [row for row in rows if row.state == FAILED]
    if failed:
        return Line(
            what, "look", f"one failed: {failed[-1].fault}", "Mend its zone in the office, under Heat."
        )
    return Line(what, "well", f"{sum(row.state == DONE for row in rows)} done")


def _has(engine: Engine, table: str) -> bool:
    """A store of before there was this table is no fault: its line says what revision it has."""
    return inspect(engine).has_table(table)


def _newest_ms(engine: Engine) -> int:
    with reading(engine) as connection:
        return connection.scalar(select(func.max(entry.c.received_ms))) or 0


def _unreadable(what: str, error: SQLAlchemyError) -> Line:
    return Line(what, "mend", f"the store cannot be read: {str(error).splitlines()[0]}", PUT_BACK)


def _certificate(patient: Patient) -> Line:
    what = "certificate"
    if patient.cert is None:
        return _no_certificate(patient.name)
    try:
        found = x509.load_pem_x509_certificate(patient.cert.read_bytes())
    except (OSError, ValueError) as error:
        return Line(what, "mend", f"{patient.cert}: {error}", "Name the PEM file that `serve` is given.")
    names = list(_names_of(found))
    host = patient.name.lower().rsplit(":", 1)[0]
    if host and not any(_covers(name, host) for name in names):
        mend = f"Get one for {host}, or serve under a name that it has."
        return Line(what, "mend", f"it is for {', '.join(names) or 'nobody'}", mend)
    days = (found.not_valid_after_utc - datetime.now(UTC)).days
    if days < 0:
        return Line(what, "mend", f"ended {-days} days ago", "Renew it: no phone reaches this server.")
    state: State = "look" if days < SOON_DAYS else "well"
    return Line(what, state, f"good for {days} days", "Renew it in time." if state == "look" else "")


def _no_certificate(name: str) -> Line:
    if not name:
        mend = "Name --name, and --cert where `serve` gets one, and ask again."
        return Line("certificate", "look", "not looked at", mend)
    if is_loopback_name(name):
        return Line("certificate", "well", f"{name} never leaves this machine: none is needed")
    mend = "Phones need HTTPS: see that the proxy before this server has a certificate for that name."
    return Line("certificate", "look", f"none here for {name}", mend)


def _names_of(found: x509.Certificate) -> Iterator[str]:
    try:
        extension = found.extensions.get_extension_for_oid(ExtensionOID.SUBJECT_ALTERNATIVE_NAME)
    except x509.ExtensionNotFound:
        return
    names = extension.value
    if isinstance(names, x509.SubjectAlternativeName):
        yield from (name.lower() for name in names.get_values_for_type(x509.DNSName))
        yield from (str(address) for address in names.get_values_for_type(x509.IPAddress))


def _covers(name: str, host: str) -> bool:
    """RFC 6125 section 6.4.3: a star stands for one label, the leftmost."""
    return name == host or (name.startswith("*.") and name[2:] == host.partition(".")[2])


def _front_end(folder: Path) -> Line:
    if (folder / "index.html").is_file():
        return Line("front end", "well", "built")
    return Line("front end", "mend", "not built", "Install the package whole, or `npm run build` in web/.")
