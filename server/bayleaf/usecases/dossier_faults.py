"""What an intact dossier must show: bag, cards, heads, chains, file entry, photos and card state agree."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from bayleaf.canonical.digest import set_digest, sha256_hex
from bayleaf.domain import dossier
from bayleaf.domain.dossier import Seen
from bayleaf.domain.dossier_chains import covered, filed_heads_faults, irregular
from bayleaf.domain.dossier_contents import Contents, text_of
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import FOLD_VERSION, fold, state_digest
from bayleaf.usecases.job_gaps import what_is_missing

Verifies = Callable[[str, str, str], bool]
BY_HASH = ("data/photos/", "data/drawings/", "data/papers/", "data/readings/", "data/sheets/")


def content_faults(
    seen: Mapping[str, Seen], contents: Contents, sealed_by: str, verifies: Verifies
) -> Iterator[str]:
    """Every disagreement between the parts of a dossier, as a sentence."""
    yield from _bag_faults(seen, contents)
    yield from _card_faults(contents, sealed_by, verifies)
    yield from _head_faults(contents, verifies)
    yield from _chain_faults(contents)
    yield from _file_faults(contents)
    yield from _addendum_faults(contents)
    yield from _photo_faults(seen, contents)
    yield from _beside_faults(seen, contents, "papers", dossier.paper_name)
    yield from _beside_faults(seen, contents, "readings", dossier.readings_name)
    yield from _beside_faults(seen, contents, "sheets", dossier.sheet_name)
    yield from heat_faults(seen, contents)
    yield from _state_faults(contents)


def _bag_faults(seen: Mapping[str, Seen], contents: Contents) -> Iterator[str]:
    payload = [member for name, member in seen.items() if name.startswith("data/")]
    tags = dossier.tag_files(contents.about, payload)
    for name, text in tags.items():
        if text != text_of(seen, name):
            yield f"{name}: not what the members ask for"


def _card_faults(contents: Contents, sealed_by: str, verifies: Verifies) -> Iterator[str]:
    for device, (text, signature) in contents.card_signatures.items():
        message = f"bayleaf-card-1\n{sha256_hex(text.encode())}"
        if not verifies(sealed_by, message, signature):
            yield f"device card {device}: not signed by this dossier's seal key"


def _head_faults(contents: Contents, verifies: Verifies) -> Iterator[str]:
    for head in contents.heads:
        card = contents.cards.get(head["device"])
        message = f"bayleaf-head-1\n{head['job']}\n{head['device']}\n{head['seq']}\n{head['hash']}"
        if card is None:
            yield f"head {head['device']} {head['seq']}: its device has no card here"
        elif not verifies(card["public_key"], message, head["signature"]):
            yield f"head {head['device']} {head['seq']}: its signature does not hold"


def heads_of(contents: Contents) -> list[tuple[str, int, str]]:
    return [(head["device"], head["seq"], head["hash"]) for head in contents.heads]


def _chain_faults(contents: Contents) -> Iterator[str]:
    hashes = [entry.hash for entry in contents.entries]
    if len(set(hashes)) < len(hashes):
        yield f"{dossier.ENTRIES}: an entry stands twice"
    found = irregular(contents.entries, heads_of(contents))
    for key, now in found.items():
        if now != contents.about[key]:
            yield f"chains: {key} are {now}, at filing they were {contents.about[key]}"
    if set_digest(hashes) != contents.about["set_digest"]:
        yield f"{dossier.ENTRIES}: the entries are not those of the set digest"


def _file_faults(contents: Contents) -> Iterator[str]:
    last = contents.entries[-1] if contents.entries else None
    if last is None or last.kind != "file" or last.hash != contents.about["file"]:
        yield f"{dossier.ENTRIES}: the last entry is not the file entry {contents.about['file']}"
        return
    if last.job != contents.about["job"]:
        yield f"{dossier.ENTRIES}: the file entry is of another job"
    if last.hash not in covered(contents.entries, heads_of(contents)):
        yield "file entry: no signed head covers it"
    yield from filed_heads_faults(contents.entries, last.body, last.device)


def _addendum_faults(contents: Contents) -> Iterator[str]:
    """An addendum holds all of what it follows: the `file` entries of those stand in it, in their order."""
    files = [entry.hash for entry in contents.entries[:-1] if entry.kind == "file"]
    named = [earlier["file"] for earlier in contents.about.get("supersedes", [])]
    if [digest for digest in files if digest in named] != named:
        yield "about.json: the file entries of what it supersedes are not in it, the oldest first"


def photos_named(entries: Sequence[Entry]) -> dict[str, str]:
    """Media type by SHA-256 of every photo that an entry names, whatever its fate."""
    bodies = [entry.body for entry in entries if entry.kind == "photo"]
    return {
        body["sha256"]: body["type"]
        for body in bodies
        if isinstance(body.get("sha256"), str) and isinstance(body.get("type"), str)
    }


def _photo_faults(seen: Mapping[str, Seen], contents: Contents) -> Iterator[str]:
    missing = set(contents.about["photos_missing"])
    wanted = {
        dossier.photo_name(*photo)
        for photo in photos_named(contents.entries).items()
        if photo[0] not in missing
    }
    here = {name for name in seen if name.startswith("data/photos/")}
    yield from (f"{name}: named by an entry and not here" for name in sorted(wanted - here))
    yield from (f"{name}: named by no entry" for name in sorted(here - wanted))
    for name, member in seen.items():
        if name.startswith(BY_HASH) and member.sha256 not in name:
            yield f"{name}: its bytes have the digest {member.sha256}"


def _beside_faults(
    seen: Mapping[str, Seen], contents: Contents, what: str, name_of: Callable[[str], str]
) -> Iterator[str]:
    """Files that stand beside the entries: makers' instructions, loggers' files, suppliers' sheets."""
    told = {name_of(one["sha256"]) for one in contents.about.get(what, [])}
    yield from _differences(told, {name for name in seen if name.startswith(f"data/{what}/")})


def _differences(told: set[str], here: set[str]) -> Iterator[str]:
    yield from (f"{name}: named by about.json and not here" for name in sorted(told - here))
    yield from (f"{name}: not named by about.json" for name in sorted(here - told))


def heat_faults(seen: Mapping[str, Seen], contents: Contents) -> Iterator[str]:
    """Every pinned plan with its zone document and response set, byte for byte, and nothing else."""
    told: dict[str, str] = {}
    for plan in contents.about.get("heat", []):
        document, answer, response = dossier.heat_names(plan["response_sha256"])
        told |= {document: plan["document_sha256"], answer: plan["answer_sha256"]}
        told[response] = plan["response_sha256"]
    here = {name: member.sha256 for name, member in seen.items() if name.startswith("data/heat/")}
    yield from _differences(set(told), set(here))
    yield from (
        f"{name}: its bytes have the digest {sha256}"
        for name, sha256 in sorted(here.items())
        if told.get(name, sha256) != sha256
    )


def _state_faults(contents: Contents) -> Iterator[str]:
    about = contents.about
    if about["fold"] != FOLD_VERSION:
        return
    state = fold(contents.methods, contents.entries)
    if state_digest(state) != about["state_digest"]:
        yield "card state: folded anew from these entries it is another than was filed"
    missing = what_is_missing(state, contents.entries, about["photos_missing"])
    if "missing" in about and about["missing"] != missing:
        yield "about.json: what is missing is not what these entries lack"
