"""The shapes of sync and reconcile, both ways."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from marshmallow import EXCLUDE, Schema, fields, validate

from bayleaf.http import shapes
from bayleaf.http.reading import SAFE_INTEGER
from bayleaf.wire.hand_in import CardShape, HeadShape

if TYPE_CHECKING:
    StringList = fields.List[str]
else:
    StringList = fields.List

MANY = 100_000
MOST_TEXT = 2_000
COUNT = validate.Range(min=0, max=SAFE_INTEGER)


class Heard(Schema):
    """A newer phone may say more than this server knows: it is heard all the same."""

    class Meta:
        """Unknown fields say nothing here."""

        unknown = EXCLUDE


class Texts(StringList):
    """A list of strings; thousands that are need no field of their own each."""

    def _deserialize(self, value: Any, *given: Any, **named: Any) -> list[Any]:
        if type(value) is list and all(type(one) is str for one in value):
            return value
        return super()._deserialize(value, *given, **named)


class ClockShape(Heard):
    """What the clocks show as it asks. `load` is declared below: Schema has a method of that name."""

    at_ms = fields.Integer(required=True, strict=True, validate=COUNT)
    mono_ms = fields.Integer(required=True, strict=True, validate=COUNT)

    class Meta(Heard.Meta):
        """The page load that `mono_ms` counts from."""

        include = {"load": shapes.uuid()}


class HoldsShape(Heard):
    """What the device has not yet been able to send."""

    entries = fields.Integer(load_default=0, strict=True, validate=COUNT)
    photos = fields.Integer(load_default=0, strict=True, validate=COUNT)


class ReportShape(Heard):
    """Digests that differ although both sides hold the same."""

    job = shapes.uuid()
    what = shapes.text(40)
    ours = shapes.text(MOST_TEXT)
    theirs = shapes.text(MOST_TEXT)


class SyncAsked(Heard):
    """What a device brings and where it stands."""

    protocol = fields.Integer(required=True, strict=True, validate=COUNT)
    log = shapes.text(36, required=False)
    cursors = fields.Dict(
        keys=shapes.uuid(),
        values=fields.Integer(strict=True, validate=COUNT),
        required=True,
        validate=validate.Length(max=MANY),
    )
    entries = Texts(
        fields.String(),
        load_default=list,
        validate=validate.Length(max=MANY),
        metadata={"description": "each the canonical JSON text of an Entry"},
    )
    heads = fields.List(fields.Nested(HeadShape), load_default=list, validate=validate.Length(max=MANY))
    cards = fields.List(fields.Nested(CardShape), load_default=list, validate=validate.Length(max=MANY))
    clock = fields.Nested(ClockShape)
    holds = fields.Nested(HoldsShape, load_default=lambda: {"entries": 0, "photos": 0})
    pulled_photos = fields.List(shapes.hex_digits(64), validate=validate.Length(max=MANY))
    reports = fields.List(fields.Nested(ReportShape), load_default=list, validate=validate.Length(max=200))


class PulledEntry(Schema):
    """An entry as it came, and what the server knows of its time."""

    text = fields.String(required=True)
    received_ms = fields.Integer(required=True)
    offset_ms = fields.Integer(metadata={"description": "the server's clock minus the author's, if known"})


class ChainHead(Schema):
    """How far a chain goes. `signature` is empty while no signed head covers its newest entry."""

    device = fields.String(required=True)
    seq = fields.Integer(required=True)
    hash = fields.String(required=True)
    signature = fields.String(required=True)
    count = fields.Integer(required=True)


class SyncedJob(Schema):
    """What is new of a job. The digests are there only where this round trip moved nothing."""

    job = fields.String(required=True)
    cursor = fields.Integer(required=True)
    more = fields.Boolean(required=True)
    entries = fields.List(fields.Nested(PulledEntry), required=True)
    heads = fields.List(fields.Nested(ChainHead), required=True)
    set_digest = fields.String()
    state_digest = fields.String()


class GoneJob(Schema):
    """How far the chains go of a job that is no longer the device's own."""

    job = fields.String(required=True)
    heads = fields.List(fields.Nested(ChainHead), required=True)


class EntryFate(Schema):
    """What became of one entry that was brought."""

    index = fields.Integer(required=True)
    hash = fields.String(required=True)
    fate = fields.String(required=True, validate=validate.OneOf(("taken", "set_aside", "refused")))
    code = fields.String(required=True)
    message = fields.String(required=True)
    field = fields.String(required=True)


class SyncAnswered(Schema):
    """The fates of what was brought, and what is new."""

    protocol = fields.Integer(required=True)
    fold = fields.Integer(required=True)
    update = fields.Boolean(required=True, metadata={"description": "the phone's protocol is too old"})
    log = fields.String(required=True)
    now_ms = fields.Integer(required=True)
    bundle = fields.String(required=True)
    fates = fields.List(fields.Nested(EntryFate), required=True)
    jobs = fields.List(fields.Nested(SyncedJob), required=True)
    new_jobs = fields.List(fields.String(), required=True)
    gone_jobs = fields.List(fields.String(), required=True)
    gone_heads = fields.List(fields.Nested(GoneJob), required=True)
    filed_jobs = fields.List(fields.String(), required=True)
    reconcile = fields.List(fields.String(), required=True)
    covered_photos = fields.List(fields.String(), required=True)
    photos_missing = fields.List(
        fields.String(),
        required=True,
        metadata={"description": "named by entries and not here: whoever holds the bytes sends them again"},
    )
    thumbs_missing = fields.List(fields.String(), required=True)
    cards = fields.List(fields.Nested(CardShape), required=True)


class ReconcileAsked(Heard):
    """All hashes of a job that the phone holds."""

    log = shapes.text(36)
    job = shapes.uuid()
    hashes = fields.List(shapes.hex_digits(64), required=True, validate=validate.Length(max=MANY))
    digest = shapes.text(64)


class ReconcileAnswered(Schema):
    """What either side lacks; both lists empty ends it, and sets the cursor."""

    log = fields.String(required=True)
    job = fields.String(required=True)
    known = fields.Boolean(required=True)
    missing_here = fields.List(fields.String(), required=True)
    entries = fields.List(fields.Nested(PulledEntry), required=True)
    more = fields.Boolean(required=True)
    cursor = fields.Integer(required=True)
    set_digest = fields.String(required=True)
    heads = fields.List(fields.Nested(ChainHead), required=True)
    cards = fields.List(fields.Nested(CardShape), required=True)
    photos_missing = fields.List(fields.String(), required=True)
    thumbs_missing = fields.List(fields.String(), required=True)
    methods_missing = fields.List(fields.String(), required=True)
    drawings_missing = fields.List(fields.String(), required=True)
