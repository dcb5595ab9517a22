"""Takes a new name for the store, and a new device for the server, when it turns out to be an older copy."""

from __future__ import annotations

from bayleaf.ports import WritesLog
from bayleaf.usecases.fates import Brought
from bayleaf.usecases.office import Office
from bayleaf.usecases.server_pen import new_device


def renew_log_if_put_back(office: Office, log: WritesLog, brought: Brought) -> None:
    """A head of its own chain that it lacks, or a device that heard more than it holds: it was put back.

    From then on it writes under a new id, so that no number of its chain is given twice. Judged within the
    transaction: a second phone that says the same a moment later speaks of a name that is gone already.
    """
    if _heard_more(log, brought) or _shows_what_it_lacks(office, log, brought):
        log.begin_log(office.ids.uuid(), new_device(office), office.clock.now_ms())


def _heard_more(log: WritesLog, brought: Brought) -> bool:
    """Whether the device has heard more of this very log than the log holds."""
    if not brought.log or brought.log != log.log():
        return False
    rows = {job: log.job(job) for job in brought.heard}
    return any(brought.heard[job] > (row.count if row is not None else 0) for job, row in rows.items())


def _shows_what_it_lacks(office: Office, log: WritesLog, brought: Brought) -> bool:
    own = log.own_device()
    shown = {head.hash: head for head in brought.heads if head.device == own.id}
    lacking = set(shown) - log.held(shown)
    return any(
        office.keys.verifies(own.public_key, shown[found].text, shown[found].signature) for found in lacking
    )
