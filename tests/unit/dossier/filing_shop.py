"""A shop with a real store and one job, that its tests file."""

from __future__ import annotations

import zipfile
from pathlib import Path

from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.adapters.signatures import verifies
from bayleaf.app import open_parts
from bayleaf.canonical.digest import sha256_hex
from bayleaf.config import Config
from bayleaf.domain import dossier
from bayleaf.domain.entries import read_entry
from bayleaf.domain.fold import fold
from bayleaf.http.parts import Parts
from bayleaf.photo_ports import StoredPhoto, Upload
from bayleaf.usecases.cards import DeviceCard, signed_card
from bayleaf.usecases.check_dossier import Verdict, check_dossier
from bayleaf.usecases.fates import Brought, Fate, ShownCard
from bayleaf.usecases.file_job import Outcome, file_job
from bayleaf.usecases.import_methods import import_methods
from bayleaf.usecases.open_job import NewJob, open_job
from bayleaf.usecases.people import PersonChange, add_person
from bayleaf.usecases.receive_entries import receive_entries
from unit.dossier.shop import PHOTO, Writer

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
PHONE = "de000000-0000-4000-8000-000000000009"
REASON = "Demonstration: filed as it stands."


class FilingShop:
    """A real embedded store with the demonstration's method, one job, and Mara's phone."""

    def __init__(self, data: Path) -> None:
        self.data = data
        self.parts: Parts = open_parts(Config(data=data))
        self.office, self.filing = self.parts.office, self.parts.filing
        now_ms = self.office.clock.now_ms()
        ada = PersonChange(name="Ada Quill", roles=("office",))
        self.ada = add_person(self.parts.doors, ada, now_ms)
        mara = add_person(self.parts.doors, PersonChange(name="Mara Ilves", roles=("technician",)), now_ms)
        drawings = {"bracket.svg": (SEED / "bracket.svg").read_bytes()}
        yaml = (SEED / "spine.yaml").read_text()
        self.method = import_methods(self.office.methods, self.office.clock, yaml, drawings)[0]
        new = NewJob("D-1", part="half", methods=[self.method.digest], people=[mara.id])
        self.job = open_job(self.office, self.ada, new)
        self.phone = Writer(PHONE, mara.id, ("technician",), job=self.job)

    def bring(self, *texts: str, signed: bool = True) -> list[Fate]:
        card = DeviceCard(
            self.phone.id, self.phone.key.public_key, "phone", self.phone.person, ("technician",), (), 1
        )
        shown = signed_card(card, self.office.seal)
        heads = [self.phone.head()] if signed else []
        brought = Brought(texts, heads, [ShownCard(shown.text, shown.signature)])
        return [fate.fate for fate in receive_entries(self.office, self.phone.id, brought)]

    def step(self, name: str) -> dict[str, str]:
        return {"method": self.method.id, "digest": self.method.digest, "step": name}

    def tick(self, name: str) -> str:
        body = {**self.step(name), "ask": "", "value": "done", "reason": "", "over": []}
        return self.phone.write("tick", body)

    def photo(self) -> str:
        body = {
            "sha256": sha256_hex(PHOTO), "bytes": len(PHOTO), "type": "image/jpeg", "width": 4, "height": 3,
            "thumb": sha256_hex(b"thumb"), **self.step("spn-01"), "slot": "damage", "position": "",
            "caption": "",
        }  # fmt: skip
        return self.phone.write("photo", body)

    def store_photo(self) -> None:
        sha256, size = sha256_hex(PHOTO), len(PHOTO)
        upload = Upload(self.office.ids.uuid(), sha256, size, "image/jpeg", self.job, self.phone.id, 0)
        self.office.photos.begin(upload)
        self.office.photos.add(upload.id, 0, [PHOTO])
        self.office.photos.finish(upload, StoredPhoto(upload.sha256, len(PHOTO), "image/jpeg", 4, 3, 1))

    def file(self, reason: str = REASON) -> Outcome:
        return file_job(self.office, self.filing, self.job, self.ada.id, reason)

    def filed(self) -> tuple[bool, list[str]]:
        """Whether phones and lists are told that the job is filed, and what the card says of it."""
        with self.office.log.reading() as log:
            row = log.job(self.job)
            entries = [read_entry(one.text) for one in log.after(self.job, 0, 1000)]
        assert row is not None
        return row.filed_ms is not None, fold({}, entries)["job"]["filed"]

    def path(self, outcome: Outcome) -> Path:
        return self.data / "dossiers" / f"{outcome.dossier}.zip"

    def check(self, outcome: Outcome) -> Verdict:
        with self.path(outcome).open("rb") as file:
            return check_dossier(ContainerReader(file), verifies, outcome.seal_fingerprint)

    def member(self, outcome: Outcome, name: str) -> bytes:
        with zipfile.ZipFile(self.path(outcome)) as opened:
            return opened.read(f"{dossier.bag_name(self.job)}/{name}")
