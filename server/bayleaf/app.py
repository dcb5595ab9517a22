"""Composes the server: picks the adapters, prepares the store, registers every route."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from flask import Flask
from sqlalchemy import Engine
from werkzeug.middleware.proxy_fix import ProxyFix

from bayleaf.adapters.chance import SystemChance
from bayleaf.adapters.database import WAIT_S, arm, open_engine
from bayleaf.adapters.disk_papers import DiskPapers
from bayleaf.adapters.disk_photos import DiskPhotos
from bayleaf.adapters.dossier_folder import DossierFolder
from bayleaf.adapters.key_files import push_key, seal_key, secret
from bayleaf.adapters.migrating import bring_up_to_date
from bayleaf.adapters.p256_pens import P256Pens
from bayleaf.adapters.passwords import Argon2Passwords
from bayleaf.adapters.signatures import ServerKeys
from bayleaf.adapters.sql_devices import SqlDevices, SqlPairCodes
from bayleaf.adapters.sql_entry_log import SqlEntryLog
from bayleaf.adapters.sql_filed import SqlFiled
from bayleaf.adapters.sql_heat import SqlHeatPlans
from bayleaf.adapters.sql_methods import SqlMethods
from bayleaf.adapters.sql_office_log import SqlOfficeLog
from bayleaf.adapters.sql_people import SqlPeople
from bayleaf.adapters.sql_push import SqlSettings, SqlSubscriptions
from bayleaf.adapters.sql_readings import SqlReadings
from bayleaf.adapters.sql_sessions import SqlAttempts, SqlSessions
from bayleaf.adapters.sql_stock import SqlStock
from bayleaf.adapters.system_clock import RandomIds, SystemClock
from bayleaf.adapters.tables import db
from bayleaf.adapters.time_zones import IanaTimeZones
from bayleaf.adapters.web_push import WebPush
from bayleaf.config import Config, DemoShop
from bayleaf.door_ports import Doors, Passwords
from bayleaf.http import (
    demo_routes,
    devices,
    doors,
    entries,
    filed,
    front_end,
    handin,
    heat_plans,
    heat_zones,
    jobs,
    materials,
    method_files,
    methods,
    openapi,
    papers,
    people,
    photos,
    push,
    readings_files,
    readings_keys,
    readings_verdict,
    refusals,
    reports,
    security,
    sheets,
    stock,
    sync,
    time_zone,
)
from bayleaf.http.parts import KEY, DemoFacts, Parts, Shop
from bayleaf.http.routes import Routes
from bayleaf.ports import Clock
from bayleaf.push_ports import Calling
from bayleaf.report.typesetting import TypstTypesetter
from bayleaf.usecases.begin_store import begin_store
from bayleaf.usecases.board import Board
from bayleaf.usecases.file_job import Filing
from bayleaf.usecases.make_report import Previews
from bayleaf.usecases.office import Office

ROUTES: Final[tuple[Routes, ...]] = (
    openapi.routes,
    doors.routes,
    people.routes,
    devices.routes,
    methods.routes,
    method_files.routes,
    jobs.routes,
    filed.routes,
    reports.routes,
    sync.routes,
    entries.routes,
    photos.routes,
    stock.routes,
    materials.routes,
    sheets.routes,
    time_zone.routes,
    push.routes,
    papers.routes,
    readings_files.routes,
    readings_keys.routes,
    readings_verdict.routes,
    heat_zones.routes,
    heat_plans.routes,
    handin.routes,
)
LARGEST_BODY = 64 * 1024 * 1024
OWNER_ONLY = 0o700


def create_app(config: Config, clock: Clock | None = None, passwords: Passwords | None = None) -> Flask:
    """A server over the data folder of `config`; tests give a clock and cheap hashes."""
    prepare_folder(config.data)
    app = Flask("bayleaf", static_folder=None)
    app.config.update(
        MAX_CONTENT_LENGTH=LARGEST_BODY,
        SQLALCHEMY_DATABASE_URI=config.database,
        SQLALCHEMY_ENGINE_OPTIONS=_engine_options(config.database),
    )
    db.init_app(app)
    with app.app_context():
        arm(db.engine)
        app.extensions[KEY] = _parts(
            config, db.engine, clock or SystemClock(), passwords or Argon2Passwords()
        )
    refusals.register(app)
    security.register(app)
    openapi.register(app, ROUTES if config.demo is None else (*ROUTES, demo_routes.routes))
    refusals.register(app)
    front_end.register(app, config.front_end)
    if config.behind_proxy:
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=1, x_proto=0, x_host=0)  # type: ignore[method-assign]
    return app


def open_parts(config: Config, clock: Clock | None = None) -> Parts:
    """The same parts without a server, for commands."""
    prepare_folder(config.data)
    return _parts(config, open_engine(config.database), clock or SystemClock(), Argon2Passwords())


def prepare_folder(data: Path) -> None:
    """The data folder is its owner's only: keys and records are in it."""
    if not data.exists():
        data.mkdir(mode=OWNER_ONLY, parents=True)


def _engine_options(url: str) -> dict[str, object]:
    return {"connect_args": {"timeout": WAIT_S}} if url.startswith("sqlite") else {}


def _parts(config: Config, engine: Engine, clock: Clock, passwords: Passwords) -> Parts:
    bring_up_to_date(engine)
    people_store, seal = SqlPeople(engine), seal_key(config.data)
    keys, settings = ServerKeys(secret(config.data)), SqlSettings(engine)
    office = Office(
        log=SqlEntryLog(engine),
        photos=DiskPhotos(engine, config.data),
        methods=SqlMethods(engine),
        office_log=SqlOfficeLog(engine),
        people=people_store,
        devices=SqlDevices(engine),
        keys=keys,
        seal=seal,
        pens=P256Pens(),
        clock=clock,
        ids=RandomIds(),
        stock=SqlStock(engine),
        heat=SqlHeatPlans(engine),
        papers=DiskPapers(engine, config.data),
        readings=SqlReadings(engine),
        time_zones=IanaTimeZones(settings),
    )
    begin_store(office)
    entrances = Doors(
        people=people_store,
        devices=SqlDevices(engine),
        codes=SqlPairCodes(engine),
        sessions=SqlSessions(engine),
        attempts=SqlAttempts(engine),
        seal=seal,
        keys=keys,
        passwords=passwords,
        chance=SystemChance(),
    )
    calling = Calling(SqlSubscriptions(engine), settings, WebPush(push_key(config.data)))
    typesetter = TypstTypesetter()
    filing = Filing(DossierFolder(config.data / "dossiers"), SqlFiled(engine), typesetter)
    return Parts(
        office, entrances, filing, _shop(config), Board(), Previews(typesetter), calling, engine.dispose
    )


def _shop(config: Config) -> Shop:
    slug_of = dict(config.demo.slug_of) if config.demo is not None else {}
    demo = _demo_facts(config.demo) if config.demo is not None else None
    return Shop(hosts=config.hosts, https=config.https, slug_of=slug_of, demo=demo)


def _demo_facts(demo: DemoShop) -> DemoFacts:
    names = {one.person: one.name for one in demo.people}
    facts: dict[str, object] = {
        "shop": demo.shop,
        "office": {"name": demo.office_name, "password": demo.office_password, "url": demo.office_url},
        "people": [
            {"name": one.name, "role": one.role, "pin": one.pin, "does": one.does} for one in demo.people
        ],
        "devices": [
            {
                "id": one.slug,
                "name": one.name,
                "person": names[one.person],
                "url": one.url,
                "fallback_url": one.fallback_url,
            }
            for one in demo.devices
        ],
        "job": {"order": demo.order, "part": demo.part},
        "soak_s": demo.soak_s,
        "jobs": [{"order": one.order, "part": one.part, "what": one.what} for one in demo.jobs],
    }
    return DemoFacts(facts, {one.slug: (one.name, one.person) for one in demo.devices})
