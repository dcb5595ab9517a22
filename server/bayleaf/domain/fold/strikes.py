"""Which entries are struck, by whom, and which strikes have no effect.

One strikes one's own (same `by`); with `office` in `as` any, with a reason, which the body's schema
demands. A strike of a strike has no effect. A strike of an entry that is absent or set aside waits
without a finding.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from bayleaf.domain.entries import Entry
from bayleaf.domain.findings import Finding, finding
from bayleaf.domain.kinds import place_of


def may_strike(strike: Entry, target: Entry) -> bool:
    """Whether the writer of the strike has the right to cross out the target."""
    return strike.by == target.by or "office" in strike.as_


def read_strikes(
    strikes: Iterable[Entry], present: Mapping[str, Entry]
) -> tuple[dict[str, list[str]], list[Finding]]:
    """The strikers by target, among the entries that are present and not set aside; and the idle strikes."""
    struck: defaultdict[str, list[str]] = defaultdict(list)
    idle: list[Finding] = []
    for strike in strikes:
        target = present.get(strike.body["target"])
        if target is None:
            continue
        if (target.v == 1 and target.kind == "strike") or not may_strike(strike, target):
            idle.append(finding("strike_without_effect", place_of(target), [strike.hash, target.hash]))
            continue
        struck[target.hash].append(strike.hash)
    return {target: sorted(by) for target, by in struck.items()}, idle
