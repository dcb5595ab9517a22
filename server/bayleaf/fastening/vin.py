"""The check digit of a vehicle identification number: a remark, never a refusal.

49 CFR 565.15(c): letters and digits have values (table III), places have weights (table IV), the weighted sum
leaves a remainder by 11, and 10 is written X. The digit is asked for in North America only: ISO 3779 leaves
place 9 free. A right digit is no proof either, since a letter and the digit of its value look alike to it.
Model "vin-1".
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bayleaf.fastening.refusal import Refused

MODEL: Final = "vin-1"
LENGTH: Final = 17
CHECK_PLACE: Final = 9
WEIGHTS: Final = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
VALUES: Final[dict[str, int]] = {
    **{str(digit): digit for digit in range(10)},
    **dict(zip("ABCDEFGH", range(1, 9), strict=True)),
    **dict(zip("JKLMN", range(1, 6), strict=True)),
    "P": 7,
    "R": 9,
    **dict(zip("STUVWXYZ", range(2, 10), strict=True)),
}
_MEANT: Final = {"I": "1", "O": "0", "Q": "0"}


@dataclass(frozen=True, slots=True)
class VinCheck:
    """A VIN as stored; the digit's figures only if it is well formed; remarks for a person to read."""

    vin_stored: str
    well_formed: bool
    remarks: tuple[str, ...]
    weighted_sum: int | None = None
    check_digit: str | None = None

    @property
    def check_digit_right(self) -> bool | None:
        return None if self.check_digit is None else self.vin_stored[CHECK_PLACE - 1] == self.check_digit


def weighted_sum(seventeen: str) -> int:
    """Sum of value times weight over 17 characters.

    Place 9 weighs nothing (49 CFR 565.15(c), tables III, IV).
    """
    return sum(VALUES[character] * weight for character, weight in zip(seventeen, WEIGHTS, strict=True))


def check_digit(seventeen: str) -> str:
    """The digit that belongs at place 9: the sum's remainder by 11, 10 written X."""
    return "0123456789X"[weighted_sum(seventeen) % 11]


def joined(first_eight: str, last_eight: str) -> str:
    """Two parts round an open place 9, as 17 characters; Refused for other lengths or characters."""
    for name, part in (("characters_1_to_8", first_eight), ("characters_10_to_17", last_eight)):
        if len(tidied(part)) != CHECK_PLACE - 1 or any(one not in VALUES for one in tidied(part)):
            raise Refused(name, repr(part), "8 characters, digits and letters without I, O and Q")
    return f"{tidied(first_eight)}0{tidied(last_eight)}"


def tidied(typed: str) -> str:
    """Capital letters, no outer blanks. Only plain letters: others may become two, or look like another."""
    return "".join(one.upper() if one.isascii() else one for one in typed.strip())


def check_vin(typed: str) -> VinCheck:
    """Tidies case and outer blanks and says what it sees; takes every text."""
    vin = tidied(typed)
    faults = _form_faults(vin)
    if faults:
        return VinCheck(vin, well_formed=False, remarks=faults)
    digit = check_digit(vin)
    return VinCheck(
        vin,
        well_formed=True,
        remarks=_digit_remarks(vin, digit),
        weighted_sum=weighted_sum(vin),
        check_digit=digit,
    )


def _form_faults(vin: str) -> tuple[str, ...]:
    faults = [] if len(vin) == LENGTH else [f"{len(vin)} characters, a VIN has {LENGTH}"]
    for place, character in enumerate(vin, 1):
        if character in _MEANT:
            faults.append(f"place {place}: {character} never occurs, {_MEANT[character]} may be meant")
        elif character not in VALUES:
            faults.append(f"place {place}: {character!r} is neither a digit nor a letter of a VIN")
    return tuple(faults)


def _digit_remarks(vin: str, digit: str) -> tuple[str, ...]:
    if vin[CHECK_PLACE - 1] == digit:
        return ("the check digit is right, which is no proof: read the VIN from the body again",)
    here = f"place {CHECK_PLACE} is {vin[CHECK_PLACE - 1]}, the check digit would be {digit}"
    return (f"{here}: read it again; outside North America the place is free",)
