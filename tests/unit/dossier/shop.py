"""An invented shop in memory: devices that write signed chains, and a small sealed dossier of their job."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from bayleaf.adapters.dossier_zip import write_container
from bayleaf.adapters.signatures import PrivateKey, fingerprint
from bayleaf.canonical.digest import NO_ENTRY, entry_hash, sha256_hex
from bayleaf.canonical.form import dumps
from bayleaf.domain import dossier
from bayleaf.domain.dossier import Member
from bayleaf.domain.dossier_chains import tips
from bayleaf.domain.entries import read_entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import method_of
from bayleaf.ports import LoggedEntry, RefusedText, SignedHead
from bayleaf.usecases.cards import DeviceCard, signed_card
from bayleaf.usecases.dossier_contents import FiledPhoto, Gathered, payload_of

JOB = "0b000000-0000-4000-8000-000000000001"
LOAD = "10ad0000-0000-4000-8000-000000000001"
DEVICE = "de000000-0000-4000-8000-00000000000"
MARA = "9e500000-0000-4000-8000-000000000001"
OSKAR = "9e500000-0000-4000-8000-000000000002"
ADA = "9e500000-0000-4000-8000-000000000003"
PHOTO = b"\xff\xd8\xff\xe0" + bytes(range(200))
DRAWING = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M1 1h7"/></svg>'
METHOD: dict[str, Any] = {
    "form": 1, "id": "tiny", "title": "Tiny", "revision": "1", "invented": True, "conditions": [],
    "zones": [], "groups": [{"id": "header", "name": "header", "positions": ["H1"]}], "materials": [],
    "drawings": {"part": sha256_hex(DRAWING)},
    "stages": [{"id": "all", "title": "All", "steps": [{
        "id": "one", "title": "One", "instruction": "Look.", "caution": "", "tools": [],
        "who": ["technician"], "people": 1, "needs": [], "hold": False, "hold_countersign": "",
        "meanwhile": [], "sets": [],
        "clears": [], "asks": [{"id": "seen", "kind": "photo", "name": "seen", "show": "it", "deadline": ""}],
    }]}],
}  # fmt: skip


@dataclass
class Writer:
    """A device with its key, writing one chain."""

    id: str
    person: str
    roles: tuple[str, ...]
    key: PrivateKey = field(default_factory=PrivateKey.new)
    texts: list[str] = field(default_factory=list)
    last: str = NO_ENTRY
    job: str = JOB

    def write(self, kind: str, body: Mapping[str, Any]) -> str:
        """The text of the next entry of the chain."""
        seq = len(self.texts) + 1
        entry: dict[str, Any] = {
            "v": 1, "job": self.job, "device": self.id, "seq": seq, "by": self.person, "auth": "own",
            "as": sorted(self.roles), "at_ms": 1_700_000_000_000 + 1000 * seq, "mono_ms": 1000 * seq,
            "load": LOAD, "kind": kind, "body": dict(body), "prev": self.last,
        }  # fmt: skip
        self.last = entry_hash(entry)
        self.texts.append(dumps({**entry, "hash": self.last}))
        return self.texts[-1]

    def head(self) -> SignedHead:
        unsigned = SignedHead(self.job, self.id, len(self.texts), self.last, "")
        return replace(unsigned, signature=self.key.sign(unsigned.text))

    def card(self, seal: PrivateKey) -> tuple[str, str]:
        card = DeviceCard(self.id, self.key.public_key, "phone", self.person, self.roles, (), 1)
        signed = signed_card(card, seal)
        return signed.text, signed.signature


@dataclass
class Shop:
    """Two phones and an office, whose job is filed; every part can be swapped before it is sealed."""

    seal: PrivateKey = field(default_factory=PrivateKey.new)
    office: Writer = field(default_factory=lambda: Writer(f"{DEVICE}1", ADA, ("office",)))
    mara: Writer = field(default_factory=lambda: Writer(f"{DEVICE}2", MARA, ("technician",)))
    oskar: Writer = field(default_factory=lambda: Writer(f"{DEVICE}3", OSKAR, ("technician",)))
    texts: list[str] = field(default_factory=list)

    @property
    def writers(self) -> tuple[Writer, ...]:
        return (self.office, self.mara, self.oskar)

    @property
    def fingerprint(self) -> str:
        return fingerprint(self.seal.public_key)

    def work(self) -> Shop:
        """A short job of all the kinds of member; entries are as the server numbered them."""
        digest = sha256_hex(dumps(METHOD).encode())
        step = {"method": "tiny", "digest": digest, "step": "one"}
        photo = {
            "sha256": sha256_hex(PHOTO), "bytes": len(PHOTO), "type": "image/jpeg", "width": 4, "height": 3,
            "thumb": sha256_hex(b"thumb"), **step, "slot": "seen", "position": "", "caption": "",
        }  # fmt: skip
        opened = {
            "order": "T-1", "vin": "INVENTED", "vehicle": "van", "part": "half", "side": "left",
            "invented": True, "over": [],
        }  # fmt: skip
        note = {
            "text": "Gr\u00fc\u00dfe, \u4f60\u597d\nline",
            "method": "",
            "digest": "",
            "step": "",
            "about": [],
        }
        self.texts = [
            self.office.write("open", opened),
            self.office.write("pin", {"methods": [digest], "over": []}),
            self.mara.write("photo", photo),
            self.mara.write("tick", {**step, "ask": "", "value": "done", "reason": "", "over": []}),
            self.oskar.write("tally", {"position": "H1", "generation": 0, "state": "shank_out"}),
            self.oskar.write("note", note),
            self.office.write("close", {"reason": "", "over": []}),
        ]
        return self

    def file(self) -> Shop:
        """The file entry, naming the others' heads."""
        entries = [read_entry(text) for text in self.texts]
        heads = [head for head in tips(entries) if head["device"] != self.office.id]
        self.texts.append(self.office.write("file", {"heads": heads, "reason": ""}))
        return self

    def gathered(self) -> Gathered:
        entries = [read_entry(text) for text in self.texts]
        logged = [_logged(number, text) for number, text in enumerate(self.texts, 1)]
        method_text = dumps(METHOD)
        methods = {sha256_hex(method_text.encode()): method_of(METHOD)}
        here = {entry.device for entry in entries}
        return Gathered(
            job=JOB, log=LOAD, filed_ms=1_700_000_100_000, reason="", logged=logged, entries=entries,
            heads=[writer.head() for writer in self.writers if writer.id in here],
            refused=[RefusedText("0" * 64, JOB, "{broken", "not_json", "Not JSON.", "", self.mara.id, 5)],
            cards={writer.id: writer.card(self.seal) for writer in self.writers},
            people={MARA: "Mara Ilves", OSKAR: "Oskar Teal", ADA: "Ada Quill"},
            method_texts=dict.fromkeys(methods, method_text), methods=methods,
            drawings={sha256_hex(DRAWING): DRAWING},
            photos=[FiledPhoto(sha256_hex(PHOTO), "image/jpeg", len(PHOTO))], photos_missing=[],
            state=fold(methods, entries),
        )  # fmt: skip

    def members(self) -> list[Member]:
        about, payload = payload_of(self.gathered(), self.fingerprint, lambda _: PHOTO)
        return self.sealed(about, payload)

    def sealed(self, about: Mapping[str, Any], payload: Sequence[Member]) -> list[Member]:
        return dossier.sealed(about, payload, self._sign)

    def _sign(self, text: str) -> dossier.Seal:
        return dossier.seal_of(self.seal.public_key, self.seal.sign(text))


def _logged(number: int, text: str) -> LoggedEntry:
    entry = read_entry(text)
    return LoggedEntry(
        entry.hash, JOB, number, entry.device, entry.seq, entry.prev, entry.kind, text,
        1_700_000_050_000 + number, 12, entry.device, signed=True,
    )  # fmt: skip


def container(members: Sequence[Member], folder: str = f"bayleaf-{JOB}") -> bytes:
    """The bytes of a dossier with these members."""
    file = io.BytesIO()
    write_container(file, folder, members)
    return file.getvalue()


def tiny_dossier() -> tuple[Shop, bytes]:
    """A filed job and its dossier."""
    shop = Shop().work().file()
    return shop, container(shop.members())
