"""The bodies that the server writes for the office."""

from __future__ import annotations

from typing import Final

from bayleaf.wire import rules
from bayleaf.wire.shapes import Inside, Shape
from bayleaf.wire.values import Flag, Listed, OneOf, Whole, Word, Words, digest, hashes, name_id, uuid

TEXT: Final = 4000
LINE: Final = 200


class OpenBody(Shape):
    """A job begins."""

    order = Words(LINE)
    vin = Words(LINE)
    vehicle = Words(LINE)
    part = Words(LINE)
    side = OneOf(("left", "right", "none"))
    invented = Flag()
    over = hashes()


class AssignBody(Shape):
    """A person is put on the job, or taken off it."""

    person = uuid()
    on = Flag()
    over = hashes()


class PlaceBody(Shape):
    """The hoist or bay."""

    place = Words(LINE)
    over = hashes()


class PinBody(Shape):
    """All methods of the job by digest, in order."""

    methods = Listed(digest(), 64, distinct=True)
    over = hashes()


class LifeBody(Shape):
    """The job is closed, or opened again."""

    reason = Words(TEXT)
    over = hashes()


class FiledHead(Shape):
    """How far a chain went when the job was filed."""

    device = uuid()
    seq = Whole(1)
    hash = digest()


class FileBody(Shape):
    """The job is filed with these chains; a reason if it is not complete."""

    rules = (rules.heads_in_order,)
    heads = Listed(Inside(FiledHead), 500)
    reason = Words(TEXT)


class AsideBody(Shape):
    """Entries are set aside."""

    hashes = hashes()
    code = name_id()


class AdmitBody(Shape):
    """Entries that were set aside are let in."""

    hashes = hashes()
    reason = Words(TEXT, least=1)


class AcceptBody(Shape):
    """A finding is accepted."""

    code = name_id()
    at = Listed(Word("[A-Za-z0-9_-]{0,64}", "an id"), 16)
    hashes = hashes()
    reason = Words(TEXT, least=1)


class SendBackBody(Shape):
    """Values are returned to be done again."""

    hashes = hashes()
    remark = Words(TEXT)
