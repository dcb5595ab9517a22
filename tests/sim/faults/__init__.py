"""Planted faults: each replaces a function or an adapter for a while, to show that it is found."""

from __future__ import annotations

from sim.faults.of_fold import OF_FOLD
from sim.faults.of_phone import OF_PHONE
from sim.faults.of_server import OF_SERVER

FAULTS = (*OF_SERVER, *OF_FOLD, *OF_PHONE)
