"""Fields that several bodies share: ids, names, keys, each with its bounds."""

from __future__ import annotations

from marshmallow import fields, validate

# No control characters, and none that turn the direction of the text after them.
VISIBLE = r"(?!.*[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069])"


def text(longest: int, *, shortest: int = 0, required: bool = True) -> fields.String:
    """A text within bounds."""
    return fields.String(required=required, validate=validate.Length(min=shortest, max=longest))


def name(*, required: bool = True) -> fields.String:
    """A name that says something."""
    fault = "allowed are 1 to 100 visible characters that do not begin or end with a blank"
    return fields.String(
        required=required,
        validate=validate.Regexp(VISIBLE + r"\S(?:.{0,98}\S)?\Z", error=fault),
    )


def uuid(*, required: bool = True) -> fields.String:
    """A lower-case UUID."""
    form = r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\Z"
    return fields.String(
        required=required, validate=validate.Regexp(form, error="allowed is a lower-case UUID")
    )


def hex_digits(length: int) -> fields.String:
    """Lower-case hex of one length."""
    fault = f"allowed are {length} lower-case hex digits"
    return fields.String(required=True, validate=validate.Regexp(rf"[0-9a-f]{{{length}}}\Z", error=fault))


def word(*, required: bool = True) -> fields.String:
    """The id of a thing in a method, of a material, of a figure."""
    form = validate.Regexp(r"[a-z0-9_-]{1,64}\Z", error="allowed are a-z 0-9 _ -")
    return fields.String(required=required, validate=form)


def day() -> fields.String:
    """A day, empty where none is known."""
    form = r"(\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01]))?\Z"
    fault = "allowed is a day such as 2026-05-31, or nothing"
    return fields.String(load_default="", validate=validate.Regexp(form, error=fault))


def ids(*, required: bool = True) -> fields.List[str]:
    """Ids as entries have them."""
    return fields.List(word(required=False), required=required, validate=validate.Length(max=50))
