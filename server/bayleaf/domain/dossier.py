"""The dossier's layout: which members a sealed job has, how large each may be, and its manifests.

A dossier is a BagIt 1.0 bag (RFC 8493). `seal.json` is a tag file that the tag manifest does not list, since
it signs that manifest: section 2.2.1 leaves it free which tag files are listed, and section 3 calls a bag
complete where every listed file is there and every payload file is listed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any, Final

from bayleaf.canonical.digest import sha256_hex
from bayleaf.canonical.form import dumps

MIB: Final = 1024 * 1024
P256_ORDER: Final = 0xFFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551  # FIPS 186-4, D.1.2.3
FORM: Final = 1

ABOUT: Final = "data/about.json"
ARRIVALS: Final = "data/arrivals.jsonl"
CARDS: Final = "data/cards.jsonl"
ENTRIES: Final = "data/entries.jsonl"
HEADS: Final = "data/heads.jsonl"
PEOPLE: Final = "data/people.json"
REFUSED: Final = "data/refused.jsonl"
REPORT: Final = "data/report.txt"
REPORT_PDF: Final = "data/report.pdf"
BAGIT: Final = "bagit.txt"
BAG_INFO: Final = "bag-info.txt"
MANIFEST: Final = "manifest-sha256.txt"
TAG_MANIFEST: Final = "tagmanifest-sha256.txt"
SEAL: Final = "seal.json"

BAGIT_TEXT: Final = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
ALWAYS: Final = (ABOUT, ARRIVALS, CARDS, ENTRIES, HEADS, PEOPLE, REFUSED, REPORT)
TYPES: Final = {"image/jpeg": "jpg", "image/png": "png"}

# By name: the most bytes that a member may have, and whether the check holds its content in memory.
_CAPS: Final[tuple[tuple[str, int, bool], ...]] = (
    (re.escape(ENTRIES), 256 * MIB, True),
    (r"data/(arrivals|refused|heads|cards)\.jsonl", 128 * MIB, True),
    (r"data/(about|people)\.json", 4 * MIB, True),
    (r"data/report\.(txt|pdf)", 64 * MIB, False),
    (r"data/methods/[0-9a-f]{64}\.json", 4 * MIB, True),
    (r"data/drawings/[0-9a-f]{64}\.svg", 4 * MIB, False),
    (r"data/photos/[0-9a-f]{64}\.(jpg|png)", 64 * MIB, False),
    (r"data/papers/[0-9a-f]{64}\.pdf", 64 * MIB, False),
    (r"data/readings/[0-9a-f]{64}\.csv", 64 * MIB, False),
    (r"data/sheets/[0-9a-f]{64}\.json", 4 * MIB, False),
    (r"data/heat/[0-9a-f]{64}/(zone\.yaml|plan\.json|response\.json\.gz)", 4 * MIB, False),
    (r"(bagit|bag-info)\.txt|seal\.json", 4096, True),
    (r"(manifest|tagmanifest)-sha256\.txt", 16 * MIB, True),
)


class DossierFault(Exception):
    """Why a file is no intact dossier; a sentence that names the member."""


@dataclass(frozen=True)
class Member:
    """One file of the bag, named from the bag's own folder; `read` gives its bytes, anew at each call."""

    name: str
    sha256: str
    size: int
    read: Callable[[], Iterable[bytes]]


@dataclass(frozen=True)
class Seen:
    """A member as the checker has read it; `content` only of those that are looked into."""

    name: str
    sha256: str
    size: int
    content: bytes = b""


@dataclass(frozen=True)
class Seal:
    """Who sealed a dossier, and the signature over its tag manifest."""

    public_key: str
    signature: str


def seal_of(public_key: str, signature: str) -> Seal:
    """A seal in its one spelling: if (r, s) verifies so does (r, n - s) (SEC 1, 4.1.4); the lower it is."""
    half = len(signature) // 2
    s = int(signature[half:], 16)
    return Seal(public_key, f"{signature[:half]}{min(s, P256_ORDER - s):0{half}x}")


def member_of(name: str, content: bytes) -> Member:
    """A member whose bytes are at hand."""
    return Member(name, sha256_hex(content), len(content), lambda: (content,))


def text_member(name: str, text: str) -> Member:
    return member_of(name, text.encode())


def lines_of(rows: Iterable[Any]) -> str:
    """Canonical JSON, one value a line."""
    return "".join(f"{dumps(row)}\n" for row in rows)


def bag_name(job: str) -> str:
    """The one folder that everything in the container lies in."""
    return f"bayleaf-{job}"


def room_for(name: str) -> tuple[int, bool]:
    """The most bytes that this member may have, and whether the check keeps its content in memory."""
    for pattern, most, kept in _CAPS:
        if re.fullmatch(pattern, name):
            return most, kept
    raise DossierFault(f"{name[:200]}: a member that a dossier does not have")


def manifest_text(digests: Mapping[str, str]) -> str:
    """A manifest (RFC 8493, 2.1.3): digest, two blanks, path; sorted by path."""
    return "".join(f"{digests[name]}  {name}\n" for name in sorted(digests))


def bag_info_text(about: Mapping[str, Any], payload: Iterable[Member | Seen]) -> str:
    """What the bag says of itself (RFC 8493, 2.2.2)."""
    sizes = [member.size for member in payload]
    day = datetime.fromtimestamp(about["filed_ms"] // 1000, UTC).date().isoformat()
    return (
        f"Bagging-Date: {day}\n"
        f"External-Identifier: {about['job']}\n"
        f"Internal-Sender-Identifier: {about['file']}\n"
        f"Payload-Oxum: {sum(sizes)}.{len(sizes)}\n"
    )


def tag_files(about: Mapping[str, Any], payload: Iterable[Member | Seen]) -> dict[str, str]:
    """Every tag file but the seal, by name, as it must be for this payload."""
    members = list(payload)
    texts = {
        BAGIT: BAGIT_TEXT,
        BAG_INFO: bag_info_text(about, members),
        MANIFEST: manifest_text({member.name: member.sha256 for member in members}),
    }
    texts[TAG_MANIFEST] = manifest_text({name: sha256_hex(text.encode()) for name, text in texts.items()})
    return texts


def seal_message(tag_manifest: str) -> str:
    """What the seal key signs: the digest of the tag manifest, which covers every other byte."""
    return f"bayleaf-dossier-1\n{sha256_hex(tag_manifest.encode())}"


def seal_text(seal: Seal) -> str:
    return dumps({"v": FORM, "public_key": seal.public_key, "signature": seal.signature})


def sealed(about: Mapping[str, Any], payload: Iterable[Member], sign: Callable[[str], Seal]) -> list[Member]:
    """All members of the dossier in the order of the container: payload, tag files and seal."""
    members = list(payload)
    tags = tag_files(about, members)
    seal = sign(seal_message(tags[TAG_MANIFEST]))
    tags[SEAL] = seal_text(seal)
    every = [*members, *(text_member(name, text) for name, text in tags.items())]
    return sorted(every, key=lambda member: member.name)


def photo_name(sha256: str, media_type: str) -> str:
    return f"data/photos/{sha256}.{TYPES.get(media_type, 'jpg')}"


def paper_name(sha256: str) -> str:
    return f"data/papers/{sha256}.pdf"


def readings_name(sha256: str) -> str:
    return f"data/readings/{sha256}.csv"


def sheet_name(digest: str) -> str:
    """Of a supplier's sheet: its canonical JSON, whose SHA-256 results name among their tables."""
    return f"data/sheets/{digest}.json"


def heat_names(response_sha256: str) -> tuple[str, str, str]:
    """Of a pinned heat plan: the zone document as handed in, the answer, the response set.

    Runs and results name the plan by its response set.
    """
    folder = f"data/heat/{response_sha256}"
    return f"{folder}/zone.yaml", f"{folder}/plan.json", f"{folder}/response.json.gz"


def method_name(digest: str) -> str:
    return f"data/methods/{digest}.json"


def drawing_name(sha256: str) -> str:
    return f"data/drawings/{sha256}.svg"
