"""Requests through the door, as `web/src/sync/door.ts`: a lost login is renewed by the device's key."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from sim.asking import Answer, NoAnswer, Refused, Request, Talk
from sim.phone import Phone


def json(phone: Phone, request: Request) -> Talk[Mapping[str, Any]]:
    answer = yield from ask(phone, request)
    body: Mapping[str, Any] = answer.json
    return body


def ask(phone: Phone, request: Request) -> Talk[Answer]:
    """The answer of a request that went well; a lost login is renewed once by the device's key."""
    first = yield replace(request, token=phone.token)
    if first.status != 401:
        return _settled(first)
    yield from _renew(phone)
    return _settled((yield replace(request, token=phone.token)))


def _renew(phone: Phone) -> Talk[None]:
    asked = yield Request("POST", "/api/door/challenge", {"device": phone.device})
    nonce = _settled(asked).json["nonce"]
    proof = {
        "device": phone.device,
        "nonce": nonce,
        "signature": phone.key.sign(f"bayleaf-door-1\n{phone.device}\n{nonce}"),
        "card": phone.card["card"],
        "card_signature": phone.card["signature"],
    }
    renewed = yield Request("POST", "/api/door/renew", proof)
    phone.token = _settled(renewed).json["token"]


def _settled(answer: Answer) -> Answer:
    if answer.status < 400:
        return answer
    if answer.status >= 500:
        raise NoAnswer(f"the server answered {answer.status}")
    raise Refused(answer.status, answer.json["code"])
