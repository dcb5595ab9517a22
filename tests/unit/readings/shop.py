"""A server with a job whose heat run is on: what a logger's readings are for."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from bayleaf.domain.entries import Entry, read_entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import method_of
from bayleaf.domain.state import CardState
from harness.server import Bench

CSV = "text/csv"
MAPPING: dict[str, Any] = {
    "logger": "Logger 7", "separator": ",", "decimal": ".", "first_line": 2, "time": 0, "date": -1,
    "time_form": "seconds", "day_order": "ymd", "unit": "C", "at_on": "0",
    "sensors": [{"column": 1, "sensor": "a"}, {"column": 2, "sensor": "b"}, {"column": 3, "sensor": "m"}],
}  # fmt: skip


@dataclass
class HotShop:
    """The server, its office's browser, and the run."""

    server: Bench
    office: FlaskClient
    job: str
    run: str

    def hand_in(self, content: bytes, name: str = "run.csv", run: str = "") -> TestResponse:
        path = f"/api/jobs/{self.job}/reading_files?name={name}&run={run or self.run}"
        return self.office.post(path, data=content, content_type=CSV)

    def kept(self, content: bytes) -> str:
        answer = self.hand_in(content)
        assert answer.status_code == 201, answer.text
        return str(answer.get_json()["id"])

    def look(self, file: str, **asked: Any) -> dict[str, Any]:
        answer = self.office.post(f"/api/reading_files/{file}/look", json=asked)
        assert answer.status_code == 200, answer.text
        told: dict[str, Any] = answer.get_json()
        return told

    def take(self, file: str, from_row: int = 0, **changed: Any) -> dict[str, Any]:
        body = {"mapping": MAPPING | changed, "from_row": from_row}
        answer = self.office.post(f"/api/reading_files/{file}/take", json=body)
        assert answer.status_code == 200, answer.text
        told: dict[str, Any] = answer.get_json()
        return told

    def write(self, kind: str, body: dict[str, Any]) -> str:
        answer = self.office.post(f"/api/jobs/{self.job}/entries", json={"kind": kind, "body": body})
        assert answer.status_code == 201, answer.text
        return str(answer.get_json()["hash"])

    def entries(self, kind: str) -> list[Entry]:
        with self.server.parts.office.log.reading() as log:
            return [read_entry(one.text) for one in log.of_kinds(self.job, [kind])]

    def points(self) -> dict[str, list[list[int]]]:
        """All readings of the run, by sensor."""
        found: dict[str, list[list[int]]] = {}
        for entry in self.entries("reading"):
            found.setdefault(entry.body["sensor"], []).extend(entry.body["points"])
        return {sensor: sorted(points) for sensor, points in found.items()}

    def state(self) -> CardState:
        office = self.server.parts.office
        with office.log.reading() as log:
            entries = [read_entry(one.text) for one in log.after(self.job, 0, 10_000)]
        texts = office.methods.texts(office.methods.digests())
        return fold({digest: method_of(json.loads(text)) for digest, text in texts.items()}, entries)


def hot_shop(server: Bench) -> HotShop:
    """The short practice method's run, switched on at noon."""
    job, office = server.job("technician"), server.office()
    on = {
        "method": "spine", "digest": server.method(), "step": "spn-09", "ask": "run", "act": "on",
        "zone": "upper", "purpose": "removal", "pads": ["U1", "U2"], "plan": "",
    }  # fmt: skip
    made = HotShop(server, office, job, "")
    made.run = made.write("heat", on)
    return made
