"""What a filed job is found by: words of its opening, its lots, and who worked on it."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from bayleaf.domain.entries import NIL, Entry
from bayleaf.domain.state import CardState
from bayleaf.door_ports import Person
from bayleaf.dossier_ports import SearchWord, Sought

LONGEST = 64
SHORTEST_ENDING = 4  # a VIN is asked for by its last characters
MOST_WORDS = 12
_PART = re.compile(r"[^\W_]+")
_OPENED = {"order": "order", "vin": "vin", "part": "part", "vehicle": "vehicle"}


def words_of(text: str) -> list[str]:
    """Letters and digits in lower case: all in one, what stands between blanks in one, and each part of it.

    >>> words_of("Lot A-1042")
    ['lota1042', 'lot', 'a1042', 'a', '1042']
    """
    folded = unicodedata.normalize("NFKC", text).casefold()
    found = ["".join(_PART.findall(folded))]
    for piece in folded.split():
        parts = _PART.findall(piece)
        found += ["".join(parts), *parts] if len(parts) > 1 else parts
    return [word[:LONGEST] for word in dict.fromkeys(found) if word]


def search_words(entries: Sequence[Entry], state: CardState) -> list[SearchWord]:
    """All that a dossier of these entries is found by, each word once a field."""
    out = {row["target"] for row in state["struck"]} | set(state["aside"])
    standing = [entry for entry in entries if entry.hash not in out]
    opened = next((entry.body for entry in entries if entry.hash == state["job"]["open"]), {})
    found = (*_of_opening(opened), *_of_lots(standing), *_of_people(standing, state))
    return list({(one.field, one.word): one for one in found}.values())


def _of_opening(opened: Mapping[str, Any]) -> Iterator[SearchWord]:
    for name, field in _OPENED.items():
        said = str(opened.get(name, ""))
        for word in words_of(said):
            yield SearchWord(field, word, said)
            if field == "vin":
                yield from (SearchWord(field, ending, said) for ending in _endings(word))


def _endings(word: str) -> Iterator[str]:
    return (word[start:] for start in range(1, len(word) - SHORTEST_ENDING + 1))


def _of_lots(entries: Iterable[Entry]) -> Iterator[SearchWord]:
    for entry in entries:
        if entry.kind == "lot":
            said = str(entry.body.get("lot", ""))
            yield from (SearchWord("lot", word, said) for word in words_of(said))


def _of_people(entries: Iterable[Entry], state: CardState) -> Iterator[SearchWord]:
    """By id: a name that is changed or taken away later is so here too."""
    people = {entry.by for entry in entries} | set(state["job"]["assigned"])
    return (SearchWord("person", person, "") for person in sorted(people - {NIL}))


def sought_in(typed: str, people: Iterable[Person]) -> list[Sought]:
    """The words of a search; a word may begin a name of somebody, too."""
    names = [(person.id, words_of(person.name)) for person in people]
    return [
        Sought(word, [person for person, own in names if any(one.startswith(word) for one in own)])
        for word in _asked(typed)
    ]


def _asked(typed: str) -> list[str]:
    """What stands between blanks is one word: A-1042 is asked for as a1042."""
    pieces = unicodedata.normalize("NFKC", typed).casefold().split()
    joined = ("".join(_PART.findall(piece))[:LONGEST] for piece in pieces)
    return [word for word in dict.fromkeys(joined) if word][:MOST_WORDS]
