"""The pinned methods, and whether an entry made under some revision answers under the pinned one.

It does if its digest is the pinned one of its method id, or if its step is byte-equal in both documents.
Where no pinned document of that id is held there is nothing to compare with, and it answers. Of two
pinned documents with one id the first counts.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from bayleaf.domain.asks import Ask
from bayleaf.domain.method import MethodDoc, StepDoc


@dataclass(frozen=True, slots=True)
class Pinned:
    """`digests` as the shown pin names them; `docs` the held ones of them, one per method id, in order."""

    digests: tuple[str, ...]
    docs: tuple[tuple[str, MethodDoc], ...]
    by_id: Mapping[str, tuple[str, MethodDoc]]
    missing: list[str]
    held: Mapping[str, MethodDoc]

    def answers(self, method_id: str, digest: str, step_id: str) -> bool:
        """Whether what was recorded for that step under that digest answers under the pinned revision."""
        pinned = self.by_id.get(method_id)
        if pinned is None or pinned[0] == digest:
            return True
        own = self.held.get(digest)
        if own is None or own.id != method_id:
            return False
        step, pinned_step = own.step(step_id), pinned[1].step(step_id)
        return step is not None and pinned_step is not None and step.text == pinned_step.text

    def steps(self) -> Iterator[tuple[MethodDoc, StepDoc]]:
        """Every step of the pinned methods, in order."""
        for _, method in self.docs:
            for step in method.steps():
                yield method, step

    def asks(self) -> Iterator[tuple[MethodDoc, StepDoc, Ask]]:
        """Every ask of the pinned methods, in order."""
        for method, step in self.steps():
            for ask in step.asks:
                yield method, step, ask

    def step(self, method_id: str, step_id: str) -> StepDoc | None:
        """The step under the pinned revision of that method, or None."""
        pinned = self.by_id.get(method_id)
        return pinned[1].step(step_id) if pinned else None


def pinned_of(digests: Sequence[str], held: Mapping[str, MethodDoc]) -> Pinned:
    """The pinned methods among those held."""
    by_id: dict[str, tuple[str, MethodDoc]] = {}
    for digest in digests:
        if digest in held:
            by_id.setdefault(held[digest].id, (digest, held[digest]))
    missing = sorted({digest for digest in digests if digest not in held})
    return Pinned(tuple(digests), tuple(by_id.values()), by_id, missing, held)
