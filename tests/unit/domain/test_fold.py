"""The fold's own promises: pure, total, quick, and digested as a whole."""

import copy
import time

import pytest

from bayleaf.canonical.digest import sha256_hex
from bayleaf.canonical.form import dumps
from bayleaf.domain.entries import Entry, entry_of, read_entry, unknown_members
from bayleaf.domain.findings import CODES
from bayleaf.domain.fold import FOLD_VERSION, fold, state_digest
from bayleaf.domain.kinds import KINDS
from bayleaf.domain.method import methods_of
from properties.job import ALL_METHODS
from properties.logs import job_log
from vectors import methods
from vectors.scene import Scene

HELD = methods_of(methods.documents(ALL_METHODS))


def _entries(seed: int) -> list[Entry]:
    return [entry_of(entry) for entry in job_log(seed)]


def test_no_entries_make_an_empty_card() -> None:
    state = fold({}, [])
    assert (state["fold"], state["count"]) == (FOLD_VERSION, 0)
    assert (state["steps"], state["registers"], state["findings"]) == ([], [], [])


def test_the_digest_is_of_all_that_the_fold_returns() -> None:
    scene = Scene()
    scene.office.open()
    state = fold({}, [entry_of(entry) for entry in scene.log])
    assert state_digest(state) == sha256_hex(dumps(state).encode())
    scene.tech.note()
    assert state_digest(fold({}, [entry_of(entry) for entry in scene.log])) != state_digest(state)


def test_the_fold_changes_nothing_of_what_it_is_given() -> None:
    log = job_log(11)
    before = copy.deepcopy(log)
    fold(HELD, [entry_of(entry) for entry in log])
    assert log == before


@pytest.mark.parametrize("seed", range(5))
def test_any_part_of_a_log_folds_whatever_is_missing(seed: int) -> None:
    entries = _entries(seed)
    for start in range(len(entries)):
        assert fold(HELD, entries[start:])["count"] == len({entry.hash for entry in entries[start:]})
        fold({}, entries[: start + 1])


def test_two_thousand_entries_fold_in_a_fraction_of_a_second() -> None:
    """Generous, so that a busy machine does not fail it: a quadratic fold would take tens of seconds."""
    entries = [entry for seed in range(48) for entry in _entries(seed)][:2000]
    began = time.perf_counter()
    fold(HELD, entries)
    assert time.perf_counter() - began < 1.5


def test_a_long_chain_of_corrections_and_of_asides_needs_no_deep_stack() -> None:
    scene = Scene()
    text = scene.tech.text("values:measure", "words", "0")
    for number in range(3000):
        text = scene.tech.text("values:measure", "words", str(number), over=[text])
    aside = scene.office.aside(text)
    for _ in range(3000):
        aside = scene.office.aside(aside)
    state = fold({}, [entry_of(entry) for entry in scene.log])
    assert len(state["aside"]) == 1501  # every second aside, and the text


def test_an_entry_is_read_from_its_text() -> None:
    scene = Scene()
    scene.tech.note("a \u00e9 remark", mood="good")
    entry = read_entry(dumps(scene.log[0]))
    assert (entry.kind, entry.as_, entry.seq) == ("note", ("technician",), 1)
    assert unknown_members(scene.log[0]) == ["mood"]


def test_kinds_and_codes_are_words_that_never_change() -> None:
    assert len(KINDS) == 28
    assert len(CODES) == 27
