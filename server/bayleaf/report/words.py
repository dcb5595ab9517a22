"""How the report writes figures, times, lists and the ids that stand in entries."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

SPACE: Final = "\u00a0"
NARROW: Final = "\u202f"
MINUS: Final = "\u2212"
MS_PER_MIN: Final = 60_000

UNITS: Final[Mapping[str, str]] = {
    "C": "\u00b0C", "degC": "\u00b0C", "Ohm": "\u03a9", "ohm": "\u03a9", "MOhm": "M\u03a9", "Mohm": "M\u03a9",
    "pct": "%", "um": "\u00b5m",
}  # fmt: skip

NUMBERS: Final = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip

KINDS: Final[Mapping[str, str]] = {
    "open": "job opened", "assign": "assigned", "place": "place", "pin": "methods pinned",
    "close": "job closed", "reopen": "job opened again", "file": "filed", "aside": "set aside",
    "admit": "admitted", "accept": "accepted", "send_back": "sent back", "tick": "tick", "text": "text",
    "choice": "choice", "reading": "reading", "photo": "photo", "tally": "rivet", "lot": "lot",
    "heat": "heat run", "note": "note", "deviation": "deviation", "countersign": "countersign",
    "strike": "strike", "result": "result", "clock": "clock", "heard": "call heard",
    "condition": "standing condition", "later": "put off",
}  # fmt: skip

FINDINGS: Final[Mapping[str, str]] = {
    "two_values": "two values stand",
    "over_without_effect": "a correction that points at nothing",
    "strike_without_effect": "a strike without effect",
    "fork": "two records with one number",
    "open_ask": "done with something still open",
    "outside_limits": "outside its limits",
    "nothing_to_compare": "the earlier value that it is compared with is missing",
    "stop_option": "an answer that stops the work",
    "wrong_lot": "wrong material",
    "expired_lot": "expired lot",
    "lost_piece": "a lost piece, not found",
    "damaged_hole": "damaged hole",
    "found_without_lost": "found, but never lost",
    "void_countersign": "a countersign that does not count",
    "two_runs": "two heat runs of one zone",
    "soak_short": "soak too short",
    "over_maximum": "over the maximum",
    "clock_changed": "the clock was changed",
    "condition_gone": "a standing condition that no longer holds",
    "picked_person": "signed from a list, without PIN",
    "same_device": "signed on the same device",
    "run_unknown": "belongs to a heat run that is not here",
    "unknown_position": "a position that the method does not know",
    "stale_result": "worked out from older records",
    "missing_method": "method not here",
    "made_under_other_revision": "recorded under another revision",
    "position_beyond": "a rivet set before the one before it",
}

PLACES: Final[Mapping[str, str]] = {
    "untouched": "not started", "lost": "lost inside", "damaged_hole": "damaged hole", "found": "found",
}  # fmt: skip

HOW_KNOWN: Final[Mapping[str, str]] = {
    "own": "own phone", "pin": "by PIN", "picked": "picked from a list",
}  # fmt: skip

VERDICTS: Final[Mapping[str, str]] = {
    "inside": "inside its limits", "outside": "outside its limits", "none": "no verdict",
}  # fmt: skip


def word(code: str) -> str:
    """An id as words: `head_off` is head off."""
    return PLACES.get(code, code.replace("_", " "))


def count(number: int) -> str:
    """A whole number with its thousands apart."""
    digits = f"{abs(number):,}".replace(",", NARROW)
    return MINUS + digits if number < 0 else digits


def figure(scaled: int, decimals: int) -> str:
    """An integer scaled by `decimals`: figure(-35, 1) is -3.5 with a true minus."""
    digits = str(abs(scaled)).rjust(decimals + 1, "0")
    whole, rest = (digits[:-decimals], f".{digits[-decimals:]}") if decimals else (digits, "")
    return f"{MINUS if scaled < 0 else ''}{count(int(whole))}{rest}"


def quantity(scaled: int, decimals: int, unit: str) -> str:
    """A figure with its unit."""
    name = UNITS.get(unit, unit)
    return figure(scaled, decimals) + (f"{SPACE}{name}" if name else "")


def number_word(number: int) -> str:
    """Small numbers as words, for sentences."""
    return NUMBERS[number] if 0 <= number < len(NUMBERS) else count(number)


def many(number: int, one: str, more: str = "") -> str:
    """`many(2, 'photo')` is 'two photos'."""
    return f"{number_word(number)} {one if number == 1 else more or one + 's'}"


def inner(text: str) -> str:
    """A name as it stands inside a sentence; what is written in capitals stays so."""
    return text[:1].lower() + text[1:] if text[1:2].islower() else text


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def listed(items: Sequence[str]) -> str:
    """a, b and c."""
    return ", ".join(items[:-1]) + (" and " if len(items) > 1 else "") + items[-1] if items else ""


def clipped(text: str, most: int) -> str:
    """The beginning of a text that is longer than `most`, at a word's end where there is one, and a mark."""
    if len(text) <= most:
        return text
    return text[:most].rsplit(" ", 1)[0].rstrip() + " \u2026"


def minutes(ms: int) -> str:
    """A span as 12 min 30 s."""
    whole, rest = divmod(max(ms, 0) // 1000, 60)
    return f"{whole}{SPACE}min" + (f" {rest}{SPACE}s" if rest else "")


def run_clock(ms: int) -> str:
    """The run clock at an act: 41:30, minutes and seconds since its on."""
    whole, rest = divmod(max(ms, 0) // 1000, 60)
    return f"{whole}:{rest:02d}"


def short(digest: str) -> str:
    """The beginning of a hash, enough to find its file or line."""
    return digest[:12]


def in_groups(digits: str, size: int = 4) -> list[str]:
    return [digits[start : start + size] for start in range(0, len(digits), size)]
