"""Faults of the phone's rules."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from sim import plan
from sim.faults.planting import Fault
from sim.phone import Phone
from sim.phone_store import Intake, PhoneStore
from sim.sync import exchange, reconcile

_take_in = PhoneStore.take_in


def _empty_on_200(self: PhoneStore, intake: Intake) -> None:
    _take_in(self, intake)
    if intake.fates:
        self.outbox.clear()


def _sends_nothing(phone: Phone, job: str, missing: Sequence[str]) -> Any:
    yield from ()


def _cursor_before_entries(self: PhoneStore, intake: Intake) -> None:
    """The cursor is kept, and of a long answer only the beginning."""
    _take_in(self, replace(intake, pulled=intake.pulled[:9]))


def _never_behind(held: plan.JobHeld, seen: plan.Seen) -> bool:
    return False


OF_PHONE = (
    Fault(
        "200 empties the outbox",
        "what was written while the answer was on its way counts as sent",
        ((PhoneStore, "take_in", _empty_on_200),),
    ),
    Fault(
        "reconcile never sends",
        "the phone pulls what it lacks, and keeps what the server lacks",
        ((reconcile, "_fill_server", _sends_nothing),),
    ),
    Fault(
        "another store is no news",
        "a changed log is taken for the old one, and no phone sees that the server is behind",
        (
            (plan, "log_pair", lambda known, now: plan.LogPair(now, changed=False)),
            (plan, "_is_behind", _never_behind),
        ),
    ),
    Fault(
        "others' proofs are not kept",
        "signed heads of other phones are thrown away",
        ((exchange, "signed_ones", lambda heads: []),),
    ),
    Fault(
        "cursor runs ahead of the entries",
        "of a long answer only the beginning is kept, and the cursor of the whole",
        ((PhoneStore, "take_in", _cursor_before_entries),),
    ),
    Fault(
        "photos are sent once",
        "bytes that a server put back has lost are never sent again",
        ((exchange, "resend_photos", lambda phone, answer: None),),
    ),
    Fault(
        "owes no heads",
        "what follows a refused entry goes without the head before it",
        ((PhoneStore, "_owe_head_before", lambda self, refused: None),),
    ),
)
