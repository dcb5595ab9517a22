"""Calls a device at once because its owner asks, at most a few times a minute."""

from __future__ import annotations

import json
from typing import Final

from bayleaf.push_ports import Answer, Calling, Fate, Letter
from bayleaf.usecases.contact import SENTENCES, contact_fault, contact_of
from bayleaf.usecases.refusal import Refusal

PAYLOAD: Final = json.dumps({"kind": "rehearsal", "moment": "now", "path": "/phone/calls"})
TTL_S: Final = 60
WAIT_MS: Final = 5_000


def rehearse(calling: Calling, device: str, now_ms: int) -> Answer:
    """The answer, noted as that of any call."""
    fault = contact_fault(contact_of(calling.settings))
    if fault:
        raise Refusal("broken_contact", SENTENCES[fault], "contact")
    to = calling.subscriptions.find(device)
    if to is None:
        raise Refusal("not_subscribed", "This phone has not asked to be called.")
    slot = f"rehearsal {now_ms // WAIT_MS}"
    if calling.subscriptions.sent(device, [slot]):
        raise Refusal("too_many_tries", "A call was just asked for; wait some seconds.", named={"retry_s": 5})
    calling.subscriptions.note_sent(device, slot, now_ms)
    letter = Letter(PAYLOAD, contact_of(calling.settings), "rehearsal", TTL_S)
    answer = calling.notifier.send(to, letter)
    if answer.fate is Fate.GONE:
        calling.subscriptions.forget(device, to.endpoint)
    else:
        calling.subscriptions.note_trouble(device, answer.cause, now_ms)
    return answer
