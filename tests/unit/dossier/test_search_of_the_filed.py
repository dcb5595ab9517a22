"""The list of the filed is searched by VIN, order, part, lot, person and day, and paged."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bayleaf.app import open_parts
from bayleaf.config import Config
from bayleaf.dossier_ports import FiledDossier
from bayleaf.http.parts import Parts
from bayleaf.usecases.file_job import file_job
from bayleaf.usecases.filed_list import PAGE, Asked, search_filed
from bayleaf.usecases.open_job import NewJob, open_job
from bayleaf.usecases.people import PersonChange, add_person, change_person
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.search_words import search_words, words_of
from bayleaf.usecases.server_pen import Draft
from bayleaf.usecases.write_office_entry import write_office_entries

EVER = 2**53 - 1
STEP = {"method": "fitting", "digest": "0" * 64, "step": "fit-18"}
LOT = {**STEP, "ask": "lot", "material": "adhesive", "expires_ms": 0}


class TickingClock:
    """A second later at each look."""

    load = "10ad0000-0000-4000-8000-000000000001"

    def __init__(self) -> None:
        self.at_ms = 1_700_000_000_000

    def now_ms(self) -> int:
        self.at_ms += 1000
        return self.at_ms

    def mono_ms(self) -> int:
        return self.at_ms


class Archive:
    """Invented jobs, each filed with a reason."""

    def __init__(self, data: Path) -> None:
        self.parts: Parts = open_parts(Config(data=data), TickingClock())
        self.office = self.parts.office
        self.filing = replace(self.parts.filing, typesetter=None)  # nothing of a report is searched
        self.ada = self.person("Ada Quill", "office")
        self.mara = self.person("Mara Ilves", "technician")

    def person(self, name: str, role: str) -> Any:
        change = PersonChange(name=name, roles=(role,))
        return add_person(self.parts.doors, change, self.office.clock.now_ms())

    def file(self, order: str, vin: str = "", part: str = "", lot: str = "", *people: str) -> str:
        job = open_job(self.office, self.ada, NewJob(order, vin=vin, part=part, people=people))
        if lot:
            write_office_entries(self.office, job, self.ada.id, [Draft("lot", {**LOT, "lot": lot})])
        return file_job(self.office, self.filing, job, self.ada.id, "to be found").dossier

    def page(self, words: str, from_ms: int = 0, until_ms: int = EVER, after: str = "") -> dict[str, Any]:
        return search_filed(self.office, self.filing, Asked(words, from_ms, until_ms, after))

    def found(self, words: str, **named: Any) -> list[str]:
        return [row["order"] for row in self.page(words, **named)["filed"]]


@pytest.fixture
def archive(tmp_path: Path) -> Iterator[Archive]:
    made = Archive(tmp_path / "data")
    yield made
    made.parts.close()


@pytest.fixture(scope="module")
def three(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Archive]:
    """Three filed jobs that are only looked at."""
    made = with_three(Archive(tmp_path_factory.mktemp("archive") / "data"))
    yield made
    made.parts.close()


def with_three(archive: Archive) -> Archive:
    archive.file("A-1042", "DEM0BAYL9EAF00214", "Rear frame, left", "KL 77-B", archive.mara.id)
    archive.file("A-1043", "DEM0BAYL9EAF00388", "Rear frame, right", "KL 78-B")
    archive.file("B-7", "", "Sill closing panel")
    return archive


@pytest.mark.parametrize(
    ("typed", "orders"),
    [
        ("A-1042", ["A-1042"]),
        ("a1042", ["A-1042"]),
        ("1043", ["A-1043"]),
        ("dem0bayl9eaf00214", ["A-1042"]),
        ("00214", ["A-1042"]),
        ("eaf00", ["A-1043", "A-1042"]),
        ("rear", ["A-1043", "A-1042"]),
        ("rear right", ["A-1043"]),
        ("frame, LEFT", ["A-1042"]),
        ("kl 77-b", ["A-1042"]),
        ("KL77B", ["A-1042"]),
        ("kl", ["A-1043", "A-1042"]),
        ("mara", ["A-1042"]),
        ("ilv rear", ["A-1042"]),
        ("ada", ["B-7", "A-1043", "A-1042"]),
        ("", ["B-7", "A-1043", "A-1042"]),
        ("nobody", []),
        ("rear nobody", []),
        ("%", ["B-7", "A-1043", "A-1042"]),
    ],
)
def test_every_word_begins_a_word_of_what_is_found(three: Archive, typed: str, orders: list[str]) -> None:
    assert three.found(typed) == orders


def test_a_row_says_what_it_was_found_by(three: Archive) -> None:
    (row,) = three.page("77b mara")["filed"]
    assert row["found_by"] == [
        {"field": "lot", "said": "KL 77-B"},
        {"field": "person", "said": "Mara Ilves"},
    ]


def test_a_changed_name_is_found_and_the_name_before_it_is_not(archive: Archive) -> None:
    three = with_three(archive)
    change = PersonChange(name="Mara Stone")
    change_person(three.parts.doors, three.mara.id, change, three.office.clock.now_ms())
    assert three.found("stone") == ["A-1042"]
    assert three.found("ilves") == []


def test_days_bound_what_is_found(three: Archive) -> None:
    at = {row["order"]: row["filed_ms"] for row in three.page("")["filed"]}
    assert three.found("", from_ms=at["A-1043"]) == ["B-7", "A-1043"]
    assert three.found("rear", until_ms=at["A-1042"]) == ["A-1042"]


def test_a_struck_lot_finds_nothing(archive: Archive) -> None:
    job = open_job(archive.office, archive.ada, NewJob("C-1"))
    (lot,) = write_office_entries(
        archive.office, job, archive.ada.id, [Draft("lot", {**LOT, "lot": "WRONG-1"})]
    )
    strike = Draft("strike", {"target": lot.hash, "reason": "misread"})
    write_office_entries(archive.office, job, archive.ada.id, [strike])
    file_job(archive.office, archive.filing, job, archive.ada.id, "x")
    assert archive.found("wrong1") == []
    assert archive.found("c1") == ["C-1"]


def test_pages_follow_each_other_without_a_gap(archive: Archive) -> None:
    made = [f"dossier-{number:03}" for number in range(PAGE + 3)]
    for at, dossier in enumerate(made):
        line = FiledDossier(dossier, f"job-{at}", "f" * 64, "5" * 64, "5e" * 32, at // 2, "")
        archive.filing.register.add(line, [])  # two of each moment: the id decides between them
    first = archive.page("")
    last = archive.page("", after=first["filed"][-1]["dossier"])
    assert (len(first["filed"]), first["more"], len(last["filed"]), last["more"]) == (PAGE, True, 3, False)
    shown = [row["dossier"] for row in (*first["filed"], *last["filed"])]
    assert shown == made[::-1]


def test_a_page_after_an_unknown_dossier_is_refused(archive: Archive) -> None:
    with pytest.raises(Refusal) as told:
        archive.page("", after="nowhere")
    assert (told.value.code, told.value.field) == ("unknown_dossier", "after")


def test_words_are_folded_and_bounded() -> None:
    assert words_of("Ä-1") == ["ä1", "ä", "1"]
    assert words_of(" -- ") == []
    assert [len(word) for word in words_of("x" * 200)] == [64]


def test_a_job_that_nobody_opened_here_has_no_words_of_an_opening() -> None:
    from bayleaf.domain.fold import fold

    assert search_words([], fold({}, [])) == []
