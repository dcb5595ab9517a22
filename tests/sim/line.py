"""The line between phones and server, one request at a time: what it loses, doubles, keeps back, damages."""

from __future__ import annotations

from dataclasses import replace

from bayleaf.adapters.memory_log_state import LogState
from bayleaf.door_ports import DeviceState
from sim.asking import Answer, NoAnswer, Refused, Request
from sim.phone import Phone
from sim.promises import is_told_of_put_back
from sim.stores import ServerDied
from sim.sync.round import run_round
from sim.world import Broken, Running, World

ALLOWED = frozenset(
    {
        "revoked_device", "wrong_digest", "foreign_job", "unknown_upload", "wrong_offset", "not_a_photo",
        "wrong_nonce", "unknown_method", "too_many_pixels", "no_login",
    }
)  # fmt: skip
REQUESTS_MAX = 3_000


def step_round(world: World, phone: Phone) -> bool:
    """Begins the phone's round or takes it one request further; False where it has ended."""
    kept = _jobs_let_go(phone)
    goes_on = _step(world, phone)
    if _jobs_let_go(phone) != kept:
        world.note_destruction()
    return goes_on


def _jobs_let_go(phone: Phone) -> set[str]:
    """Of these it has dropped the entries, as it may 30 days after filing."""
    return {row.job for row in phone.store.jobs.values() if row.let_go}


def _step(world: World, phone: Phone) -> bool:
    running = world.rounds.pop(phone.name, None) or _begun(phone)
    try:
        answer = deliver(world, phone, running.asks)
    except NoAnswer as fault:
        return _go_on(world, phone, running, fault)
    return _go_on(world, phone, running, answer)


def whole_round(world: World, phone: Phone) -> None:
    """One round to its end."""
    for _ in range(REQUESTS_MAX):
        if not step_round(world, phone):
            return
    raise Broken(f"{phone.name}: a round of more than {REQUESTS_MAX} requests")


def _begun(phone: Phone) -> Running:
    talk = run_round(phone)
    return Running(talk, next(talk))


def _go_on(world: World, phone: Phone, running: Running, said: Answer | NoAnswer) -> bool:
    try:
        asks = running.talk.throw(said) if isinstance(said, NoAnswer) else running.talk.send(said)
    except StopIteration:
        world.say(f"{phone.name}: round ends")
        return False
    except NoAnswer:
        world.say(f"{phone.name}: no answer")
        return False
    except Refused as refused:
        _hear_refusal(world, phone, refused)
        return False
    world.rounds[phone.name] = Running(running.talk, asks)
    return True


def _hear_refusal(world: World, phone: Phone, refused: Refused) -> None:
    world.say(f"{phone.name}: refused {refused.code}")
    if refused.code not in ALLOWED:
        raise Broken(f"{phone.name}: the server refused with {refused.status} {refused.code}")
    if refused.code == "revoked_device":
        found = world.server.disk.devices.find(phone.device)
        if found is None or found.state is not DeviceState.REVOKED:
            raise Broken(f"{phone.name}: told to be revoked and is not")
        phone.state = "revoked"
        world.note_destruction()


def deliver(world: World, phone: Phone, request: Request) -> Answer:
    """The answer, or NoAnswer where the line broke before or after the server heard it."""
    if world.calm:
        return handle(world, request)
    chance, traits = world.chance, world.traits
    if phone.name in world.offline or (traits.loses and chance.random() < 0.06):
        raise NoAnswer("lost on its way")
    if traits.damages and request.method == "PATCH" and chance.random() < 0.15:
        request = replace(request, content=_damaged(world, request.content))
    if traits.delays and chance.random() < 0.05:
        world.delayed.append(request)
    if traits.dies and chance.random() < 0.02:
        world.server.disk.log.dies = True
    answer = handle(world, request)
    if traits.duplicates and chance.random() < 0.06:
        answer = handle(world, request)
    if traits.loses and chance.random() < 0.08:
        world.say(f"{phone.name}: {request.method} {request.path} was heard, its answer lost")
        raise NoAnswer("the answer was lost")
    return answer


def handle(world: World, request: Request) -> Answer:
    """The server's answer; where it dies, it starts again from its disk."""
    told, before = is_told_of_put_back(world, request), world.server.disk.log.on_disk
    try:
        answer = world.server.handle(request)
    except ServerDied:
        world.say("the server died before its commit, and starts again")
        world.server.start()
        raise NoAnswer("the server died") from None
    if answer.status >= 500:
        fault = world.server.faults[-1]
        raise Broken(f"{request.method} {request.path}: answered {answer.status}") from fault
    if told and answer.status == 200:
        _require_new_name(before, world.server.disk.log.on_disk)
    return answer


def _require_new_name(before: LogState, after: LogState) -> None:
    if before.log() == after.log() or before.current == after.current:
        raise Broken("the server was shown that it was put back, and goes on under its old name or device")


def _damaged(world: World, content: bytes) -> bytes:
    if world.chance.random() < 0.5:
        return content[: world.chance.randint(0, len(content))]
    at = world.chance.randrange(len(content))
    return content[:at] + bytes([content[at] ^ 1]) + content[at + 1 :]
