"""The promises of subscriptions and settings, written once and asked of every adapter."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.memory_push import MemorySettings, MemorySubscriptions
from bayleaf.adapters.sql_push import SqlSettings, SqlSubscriptions
from bayleaf.adapters.tables import metadata
from bayleaf.push_ports import Settings, Subscription, Subscriptions

FIRST = Subscription("device-1", "https://push.example/1", "p1", "a1", runs=True, signs=False, made_ms=5)
SECOND = Subscription("device-2", "https://push.example/2", "p2", "a2", runs=True, signs=True, made_ms=6)


def check_subscriptions(kept: Subscriptions) -> None:
    """One a device, one an endpoint; trouble is noted and lifted; what was sent is sent once."""
    kept.put(SECOND)
    kept.put(FIRST)
    assert list(kept.all()) == [FIRST, SECOND]
    kept.note_trouble("device-1", "refused", 9)
    assert kept.find("device-1") == replace(FIRST, trouble="refused", trouble_ms=9)
    kept.note_trouble("device-1", "", 10)
    assert kept.find("device-1") == FIRST
    moved = replace(FIRST, device="device-3")
    kept.put(moved)
    assert list(kept.all()) == [SECOND, moved], "a browser that was paired anew has one subscription"
    kept.forget("device-3", "https://push.example/older")
    assert kept.find("device-3") == moved, "a newer subscription outlives the end of the older one"
    kept.forget("device-3", moved.endpoint)
    kept.forget("device-2")
    kept.forget("device-2")
    assert list(kept.all()) == []
    _check_sent(kept)


def _check_sent(kept: Subscriptions) -> None:
    kept.note_sent("device-1", "k1", 5)
    kept.note_sent("device-1", "k1", 7)
    kept.note_sent("device-1", "k2", 8)
    assert kept.sent("device-1", ["k1", "k2", "k3"]) == {"k1", "k2"}
    assert kept.sent("device-2", ["k1"]) == set()
    assert kept.sent("device-1", []) == set()
    kept.sweep(8)
    assert kept.sent("device-1", ["k1", "k2"]) == {"k2"}


def check_settings(settings: Settings) -> None:
    """What nobody set is empty; the newest stays."""
    assert settings.get("contact") == ""
    settings.put("contact", "one")
    settings.put("contact", "two")
    settings.put("other", "three")
    assert (settings.get("contact"), settings.get("other")) == ("two", "three")


@pytest.fixture(params=["sql", "memory"])
def stores(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[Subscriptions, Settings]:
    if request.param == "memory":
        return MemorySubscriptions(), MemorySettings()
    engine = open_engine(f"sqlite:///{tmp_path / 'store.sqlite3'}")
    metadata.create_all(engine)
    return SqlSubscriptions(engine), SqlSettings(engine)


def test_every_keeper_of_subscriptions_keeps_the_promise(stores: tuple[Subscriptions, Settings]) -> None:
    check_subscriptions(stores[0])


def test_every_keeper_of_settings_keeps_the_promise(stores: tuple[Subscriptions, Settings]) -> None:
    check_settings(stores[1])
