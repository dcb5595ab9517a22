"""Rounds of calls over a store that holds the half-done job: who is called, for what, how often."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path

import pytest

from bayleaf.adapters.memory_push import MemoryNotifier, MemorySubscriptions
from bayleaf.adapters.push_lines import PushSession
from bayleaf.adapters.signatures import PrivateKey
from bayleaf.adapters.web_push import WebPush
from bayleaf.canonical.form import dumps
from bayleaf.door_ports import Device, DeviceState, Person
from bayleaf.ports import NIL, JobRow, LoggedEntry
from bayleaf.push_ports import Answer, Calling, Fate, Subscription
from bayleaf.usecases.contact import CONTACT
from bayleaf.usecases.remind import Called, Rounds, remind
from harness.played import (
    DEVICES,
    JOB,
    PEOPLE,
    PlayedJob,
    frame_documents,
    played_half,
    played_removal,
    text_of,
)
from harness.push_service import b64, browser, claims_of, push_service
from harness.server import Bench, bench

MIN = 60_000
RAMP_MIN = 20  # what the removal says of its upper zone
SHARED = "5a000000-0000-4000-8000-000000000001"


@dataclass
class Shop:
    """A server with one job, two phones of technicians, the photographer's and a shared one."""

    server: Bench
    calling: Calling
    notifier: MemoryNotifier
    rounds: Rounds = field(default_factory=Rounds)
    on_ms: int = 0

    def at(self, minute: float) -> list[tuple[str, str, str]]:
        """(device, act, moment) of what went out in a round at that minute of the run."""
        return self.round_at(self.on_ms + round(minute * MIN))

    def round_at(self, now_ms: int) -> list[tuple[str, str, str]]:
        self.server.clock.at_ms = now_ms
        return [_short(one) for one in remind(self.server.parts.office, self.calling, self.rounds)]

    def wants(self, name: str, *, runs: bool = True, signs: bool = True) -> None:
        device = SHARED if name == "shared" else DEVICES[name]
        self.calling.subscriptions.put(
            Subscription(device, f"https://push.example/{name}", "p", "a", runs, signs, 1)
        )


def _short(called: Called) -> tuple[str, str, str]:
    names = {**{value: name for name, value in DEVICES.items()}, SHARED: "shared"}
    return names[called.device], called.call.act, called.call.moment


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    server = bench(tmp_path / "data")
    yield stocked(server, played_half())
    server.close()


def stocked(server: Bench, played: PlayedJob) -> Shop:
    office, notifier = server.parts.office, MemoryNotifier()
    for name, holds in (("mara", ("measuring",)), ("oskar", ()), ("pim", ())):
        role = "photographer" if name == "pim" else "technician"
        office.people.add(Person(PEOPLE[name], name, (role,), holds), 1)
        put_device(server, DEVICES[f"{name}s"], PEOPLE[name])
    put_device(server, SHARED, NIL)
    for digest, document in frame_documents().items():
        office.methods.put(digest, dumps(document), "", 1)
    with office.log.writing() as log:
        log.lock([JOB])
        log.put_job(JobRow(JOB, 0, shell=False, order="T-40", made_ms=1))
        log.append(JOB, [_logged(number, text_of(one), one) for number, one in enumerate(played.entries)])
    server.parts.calling.settings.put(CONTACT, "mailto:calls@shop.invented")
    calling = replace(server.parts.calling, notifier=notifier)
    begun = [one for one in played.entries if one.kind == "heat" and one.body["act"] == "on"]
    return Shop(server, calling, notifier, on_ms=begun[-1].at_ms if begun else played.entries[-1].at_ms)


def _logged(number: int, text: str, one: object) -> LoggedEntry:
    told = json.loads(text)
    return LoggedEntry(
        told["hash"], JOB, number, told["device"], told["seq"], told["prev"], told["kind"], text,
        told["at_ms"], 0, told["device"], True,
    )  # fmt: skip


def put_device(server: Bench, device: str, person: str) -> None:
    server.parts.office.devices.put(Device(device, "04", "a phone", person, DeviceState.PAIRED))


def test_a_run_calls_before_when_due_and_when_overdue_and_each_once(shop: Shop) -> None:
    shop.wants("maras")
    assert shop.at(RAMP_MIN - 6) == []
    assert shop.at(RAMP_MIN - 5) == [("maras", "read", "five_min")]
    assert shop.at(RAMP_MIN - 4.75) == []
    assert shop.at(RAMP_MIN) == [("maras", "read", "due")]
    assert shop.at(RAMP_MIN + 0.25) == []
    assert shop.at(RAMP_MIN + 3) == [("maras", "read", "overdue")]
    assert shop.at(RAMP_MIN + 3.25) == []
    assert shop.at(RAMP_MIN + 300) == [], "nobody is called for what was forgotten hours ago"


def test_a_new_process_does_not_call_again(shop: Shop) -> None:
    shop.wants("maras")
    assert len(shop.at(RAMP_MIN)) == 1
    shop.rounds = Rounds()
    assert shop.at(RAMP_MIN + 0.25) == []


def test_everybody_on_the_job_who_wants_it_is_called_and_nobody_else(shop: Shop) -> None:
    shop.wants("maras")
    shop.wants("oskars", runs=False)
    shop.wants("pims")
    shop.wants("shared")
    assert {device for device, _, _ in shop.at(RAMP_MIN)} == {"maras", "pims", "shared"}


def test_a_letter_names_no_person_no_vehicle_and_no_order(shop: Shop) -> None:
    shop.wants("maras")
    shop.at(RAMP_MIN)
    ((_, letter),) = shop.notifier.letters
    told = json.loads(letter.payload)
    assert told.keys() == {"job", "kind", "act", "moment", "path"}
    assert (told["job"], told["kind"], told["act"], told["moment"]) == (JOB[:8], "run", "read", "due")
    assert told["path"].startswith(f"/job/{JOB}/run/")
    for secret in ("T-40", "DEMO0000000000004", "minibus", "mara", PEOPLE["mara"], "upper"):
        assert secret not in letter.payload
    assert letter.contact == "mailto:calls@shop.invented"
    assert 60 <= letter.ttl_s <= 180, "a call that comes after its moment would be wrong"


def test_nobody_is_called_without_a_contact(shop: Shop) -> None:
    shop.wants("maras")
    shop.calling.settings.put(CONTACT, "")
    assert shop.at(RAMP_MIN) == []
    assert shop.notifier.letters == []


def test_a_subscription_that_is_gone_is_forgotten(shop: Shop) -> None:
    shop.wants("maras")
    shop.notifier.answers[DEVICES["maras"]] = Answer(Fate.GONE, "The push service answered 410.")
    shop.at(RAMP_MIN)
    assert shop.calling.subscriptions.all() == []


def test_a_refusal_is_kept_with_its_cause_until_a_call_is_taken(shop: Shop) -> None:
    shop.wants("maras")
    shop.notifier.answers[DEVICES["maras"]] = Answer(Fate.REFUSED, "403: BadJwtToken")
    shop.at(RAMP_MIN)
    (kept,) = shop.calling.subscriptions.all()
    assert (kept.trouble, kept.trouble_ms) == (
        "403: BadJwtToken",
        shop.on_ms + RAMP_MIN * MIN,
    )
    del shop.notifier.answers[DEVICES["maras"]]
    assert shop.at(RAMP_MIN + 3) == [("maras", "read", "overdue")]
    assert shop.calling.subscriptions.all()[0].trouble == ""


def test_a_busy_service_is_asked_again_when_it_said_and_the_call_is_not_lost(shop: Shop) -> None:
    shop.wants("maras")
    shop.notifier.answers[DEVICES["maras"]] = Answer(Fate.LATER, "busy", retry_s=90)
    assert shop.at(RAMP_MIN) == [("maras", "read", "due")]
    assert shop.at(RAMP_MIN + 1) == []
    del shop.notifier.answers[DEVICES["maras"]]
    assert shop.at(RAMP_MIN + 1.5) == [("maras", "read", "due")]
    assert len(shop.notifier.letters) == 2


def test_a_device_that_is_no_longer_let_in_is_not_called(shop: Shop) -> None:
    shop.wants("maras")
    shop.server.parts.office.devices.revoke(DEVICES["maras"], 5)
    assert shop.at(RAMP_MIN) == []
    assert shop.calling.subscriptions.all() == []


def test_a_job_that_has_not_grown_is_not_folded_again(shop: Shop) -> None:
    shop.wants("maras")
    shop.at(RAMP_MIN)
    kept = dict(shop.rounds.waiting)
    shop.at(RAMP_MIN + 1)
    assert all(shop.rounds.waiting[job] is was for job, was in kept.items())


def test_a_hold_calls_the_other_technician_and_not_who_recorded_it(tmp_path: Path) -> None:
    """rem-26 wants a second person; Mara answered its asks, so the call is Oskar's."""
    whole = played_removal()
    sign = next(
        place
        for place, one in enumerate(whole.entries)
        if one.kind == "countersign" and one.body["step"] == "rem-26"
    )
    server = bench(tmp_path / "data")
    shop = stocked(server, replace(whole, entries=whole.entries[:sign]))
    for name in ("maras", "oskars", "pims"):
        shop.wants(name)
    calls = shop.round_at(whole.entries[sign].at_ms)
    assert calls == [("oskars", "sign", "waits")]
    assert shop.round_at(whole.entries[sign].at_ms + 15_000) == []
    told = json.loads(shop.notifier.letters[0][1].payload)
    assert told["path"] == f"/job/{JOB}/step/removal/rem-26"
    server.close()


def test_subscriptions_in_memory_and_in_the_store_are_called_alike(shop: Shop) -> None:
    shop.calling = replace(shop.calling, subscriptions=MemorySubscriptions())
    shop.wants("maras")
    assert shop.at(RAMP_MIN) == [("maras", "read", "due")]


def test_a_call_goes_all_the_way_and_only_its_phone_can_read_it(shop: Shop) -> None:
    opener = browser()
    with push_service() as service:
        shop.calling = replace(shop.calling, notifier=WebPush(PrivateKey.new().pem(), PushSession))
        endpoint, auth = f"{service.origin}/push/maras", b64(opener.auth)
        shop.calling.subscriptions.put(
            Subscription(DEVICES["maras"], endpoint, opener.p256dh, auth, runs=True, signs=True, made_ms=1)
        )
        assert shop.at(RAMP_MIN) == [("maras", "read", "due")]
        (arrived,) = service.arrived
        claims, _ = claims_of(arrived.headers["authorization"])
        assert claims["sub"] == "mailto:calls@shop.invented"
        assert json.loads(opener.open(arrived.body))["moment"] == "due"
        service.status = 410
        assert shop.at(RAMP_MIN + 3) == [("maras", "read", "overdue")]
    assert shop.calling.subscriptions.all() == []
