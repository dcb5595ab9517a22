"""Letters as a push service gets them: sealed for one browser, signed for the service, answered for."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from dataclasses import replace

import pytest
import requests
from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.asymmetric import ec

from bayleaf.adapters.memory_push import MemoryNotifier
from bayleaf.adapters.push_lines import PushSession, public_session
from bayleaf.adapters.signatures import PrivateKey
from bayleaf.adapters.web_push import WebPush
from bayleaf.push_ports import Answer, Fate, Letter, Notifier, Subscription
from bayleaf.usecases.push_endpoint import is_public
from harness.push_service import Browser, PushService, browser, claims_of, push_service, unb64

LETTER = Letter('{"moment":"due"}', "mailto:calls@shop.invented", "a" * 32, 180)
DAY_S = 24 * 3600


@pytest.fixture
def service() -> Iterator[PushService]:
    with push_service() as made:
        yield made


@pytest.fixture(scope="module")
def pem() -> str:
    return PrivateKey.new().pem()


def subscription(service: PushService, opener: Browser) -> Subscription:
    auth = "AAECAwQFBgcICQoLDA0ODw"  # the bytes 0 to 15
    return Subscription("device", f"{service.origin}/push/1", opener.p256dh, auth, True, True, 1)


def out(pem: str, timeout_s: float = 5) -> WebPush:
    """Ours, with a line that reaches this machine."""
    return WebPush(pem, PushSession, timeout_s)


def test_the_opening_is_that_of_the_standard() -> None:
    """RFC 8291, Appendix A."""
    scalar = int.from_bytes(unb64("q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94"), "big")
    opener = Browser(ec.derive_private_key(scalar, ec.SECP256R1()), unb64("BTBZMqHH6r4Tts7J_aSIgg"))
    assert opener.p256dh == (
        "BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4"
    )
    body = (
        "DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6T"
        "lzAC8wEqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4"
        "a-fN"
    )
    assert opener.open(unb64(body)) == b"When I grow up, I want to be a watermelon"


def test_only_the_browser_that_subscribed_can_open_a_letter(service: PushService, pem: str) -> None:
    opener = browser()
    assert out(pem).send(subscription(service, opener), LETTER) == Answer(Fate.TAKEN)
    (arrived,) = service.arrived
    assert arrived.path == "/push/1"
    assert json.loads(opener.open(arrived.body)) == {"moment": "due"}
    assert arrived.headers["content-encoding"] == "aes128gcm"
    assert (arrived.headers["ttl"], arrived.headers["urgency"]) == ("180", "high")
    assert arrived.headers["topic"] == "a" * 32  # RFC 8030 section 5.4: at most 32 characters of base64url
    with pytest.raises(InvalidTag):
        browser().open(arrived.body)


def test_the_service_is_told_who_calls_by_a_token_that_holds_for_less_than_a_day(
    service: PushService, pem: str
) -> None:
    """RFC 8292 section 2: aud is the service's origin, exp no more than 24 h ahead, sub the contact."""
    began_s = time.time()
    out(pem).send(subscription(service, browser()), LETTER)
    claims, key = claims_of(service.arrived[0].headers["authorization"])
    assert claims["aud"] == service.origin
    assert claims["sub"] == "mailto:calls@shop.invented"
    assert began_s < claims["exp"] <= time.time() + DAY_S
    assert key == out(pem).public_key
    assert unb64(key).hex() == PrivateKey.of_pem(pem).public_key


@pytest.mark.parametrize(
    ("status", "fate"),
    [
        (201, Fate.TAKEN),
        (202, Fate.TAKEN),
        (404, Fate.GONE),
        (410, Fate.GONE),
        (400, Fate.REFUSED),
        (401, Fate.REFUSED),
        (403, Fate.REFUSED),
        (413, Fate.REFUSED),
        (429, Fate.LATER),
        (500, Fate.LATER),
        (503, Fate.LATER),
    ],
)
def test_each_answer_has_its_fate(service: PushService, pem: str, status: int, fate: Fate) -> None:
    service.status = status
    assert out(pem).send(subscription(service, browser()), LETTER).fate is fate


def test_a_refusal_names_its_cause_in_one_short_line(service: PushService, pem: str) -> None:
    service.status, service.words = 403, b'{"reason":\n "BadJwtToken"}' + b"x" * 5000
    answer = out(pem).send(subscription(service, browser()), LETTER)
    assert answer.fate is Fate.REFUSED
    assert answer.cause.startswith('The push service answered 403: {"reason": "BadJwtToken"}')
    assert "contact address" in answer.cause
    assert len(answer.cause) < 350


def test_a_busy_service_says_when_to_come_again(service: PushService, pem: str) -> None:
    service.status, service.sends = 429, {"Retry-After": "120"}
    assert out(pem).send(subscription(service, browser()), LETTER).retry_s == 120
    service.sends = {"Retry-After": "99999999"}
    assert out(pem).send(subscription(service, browser()), LETTER).retry_s == 3600


def test_a_service_that_does_not_answer_is_not_waited_for(service: PushService, pem: str) -> None:
    service.free.clear()
    began = time.monotonic()
    answer = out(pem, timeout_s=0.2).send(subscription(service, browser()), LETTER)
    assert answer.fate is Fate.LATER
    assert "not reached" in answer.cause
    assert time.monotonic() - began < 5


def test_nobody_there_is_asked_again_later(pem: str) -> None:
    with push_service() as closed:
        to = subscription(closed, browser())
    assert out(pem).send(to, LETTER).fate is Fate.LATER


def test_a_redirect_leads_nowhere(service: PushService, pem: str) -> None:
    service.status, service.sends = 302, {"Location": f"{service.origin}/inside"}
    assert out(pem).send(subscription(service, browser()), LETTER).fate is Fate.REFUSED
    assert [one.path for one in service.arrived] == ["/push/1"]


def test_broken_keys_are_refused_and_sent_nowhere(service: PushService, pem: str) -> None:
    broken = replace(subscription(service, browser()), p256dh="B" + "A" * 86)
    assert out(pem).send(broken, LETTER).fate is Fate.REFUSED
    assert service.arrived == []


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost", "[::1]"])
def test_the_line_of_a_shop_reaches_nobody_in_the_house(service: PushService, pem: str, host: str) -> None:
    for scheme in ("http", "https"):
        to = replace(subscription(service, browser()), endpoint=f"{scheme}://{host}:{service.port}/push/1")
        answer = WebPush(pem, public_session, 2).send(to, LETTER)
        assert answer.fate in (Fate.LATER, Fate.REFUSED)
    assert service.arrived == []


def test_it_hangs_up_on_the_address_that_a_name_led_to(service: PushService) -> None:
    with public_session() as session, pytest.raises(requests.ConnectionError, match="not a public address"):
        session.post(f"https://localhost:{service.port}/push/1", data=b"x", timeout=2)


@pytest.mark.parametrize(
    ("address", "public"),
    [
        ("10.1.2.3", False),
        ("172.16.0.1", False),
        ("192.168.1.1", False),
        ("169.254.169.254", False),
        ("100.64.0.1", False),
        ("0.0.0.0", False),  # noqa: S104  (an address to judge)
        ("224.0.0.1", False),
        ("::1", False),
        ("fe80::1", False),
        ("fd00::1", False),
        ("::ffff:10.0.0.1", False),
        ("9.9.9.9", True),
        ("2620:fe::fe", True),
    ],
)
def test_which_addresses_lie_out_in_the_internet(address: str, public: bool) -> None:
    assert is_public(address) is public


def check_notifier(notifier: Notifier, to: Subscription) -> None:
    """It has a key and answers with what became of the letter."""
    assert notifier.public_key
    assert notifier.send(to, LETTER) == Answer(Fate.TAKEN)


def test_every_way_out_keeps_the_promise(service: PushService, pem: str) -> None:
    to = subscription(service, browser())
    check_notifier(out(pem), to)
    kept = MemoryNotifier()
    check_notifier(kept, to)
    assert kept.letters == [("device", LETTER)]
