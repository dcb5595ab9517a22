"""The envelope of an entry for the OpenAPI document; `domain/entries.py` judges it."""

from __future__ import annotations

from bayleaf.domain.entries import AUTHS
from bayleaf.wire.shapes import Shape
from bayleaf.wire.values import AnyObject, Listed, OneOf, Whole, Word, digest, name_id, uuid


class Envelope(Shape):
    """An entry of form 1. `as` and `load` are declared below, since Python and Schema use these names."""

    v = Whole(1, 1)
    job = uuid()
    device = uuid()
    seq = Whole(1)
    by = uuid()
    auth = OneOf(AUTHS)
    at_ms = Whole(0)
    mono_ms = Whole(0)
    kind = Word("[a-z_]{1,32}", "1 to 32 of a-z _")
    body = AnyObject()
    prev = digest()
    hash = digest()

    class Meta(Shape.Meta):
        """The two names that cannot be written as attributes."""

        include = {"as": Listed(name_id(), 64, in_order=True), "load": uuid()}
