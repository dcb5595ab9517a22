"""Begins the store: its name and the server's first device, once; and what a newer program can mend."""

from __future__ import annotations

from bayleaf.usecases.mend import mend_all
from bayleaf.usecases.office import Office
from bayleaf.usecases.server_pen import new_device


def begin_store(office: Office) -> int:
    """At every start. How many entries could be admitted that had been set aside."""
    with office.log.writing() as log:
        if not log.log():
            log.begin_log(office.ids.uuid(), new_device(office), office.clock.now_ms())
    return mend_all(office)
