"""Entries refused for hash or envelope, and odd ones that are read; for both sides."""

import json
from typing import Any

from bayleaf.canonical.digest import entry_hash
from bayleaf.canonical.form import dumps
from vectors.scene import Scene

# name: (about, members changed (None: left out), code, field); hashed anew unless `hash` is changed.
CASES: dict[str, tuple[str, dict[str, Any], str, str]] = {
    "a_whole_entry_is_read": ("Nothing is wrong with it", {}, "", ""),
    "a_missing_hash": ("An entry without its hash", {"hash": None}, "wrong_hash", "hash"),
    "another_hash": ("The hash of something else", {"hash": "0" * 64}, "wrong_hash", "hash"),
    "a_hash_that_is_no_string": ("A number for a hash", {"hash": 1}, "wrong_hash", "hash"),
    "another_form_is_read": ("v 2 is kept, set aside by the server", {"v": 2}, "", ""),
    "an_unknown_kind_is_read": ("A later kind is kept", {"kind": "weather"}, "", ""),
    "an_unknown_member_is_read": ("A later member is kept", {"mood": "good"}, "", ""),
    "a_broken_envelope_of_another_form": (
        "An envelope must be readable whatever its form",
        {"v": 2, "seq": 0},
        "broken_envelope",
        "seq",
    ),
    "the_first_broken_member_is_named": (
        "Two members are broken; the first in the envelope's order is told",
        {"seq": 0, "kind": "", "prev": ""},
        "broken_envelope",
        "seq",
    ),
    "a_wrong_hash_goes_before_a_broken_envelope": (
        "The hash is checked before any member",
        {"seq": 0, "hash": "0" * 64},
        "wrong_hash",
        "hash",
    ),
    "v_zero": ("v is at least 1", {"v": 0}, "broken_envelope", "v"),
    "v_as_a_string": ("v is an integer", {"v": "1"}, "broken_envelope", "v"),
    "v_true": ("true is no integer", {"v": True}, "broken_envelope", "v"),
    "no_v": ("v is needed", {"v": None}, "broken_envelope", "v"),
    "a_job_in_upper_case": (
        "UUIDs are lower case",
        {"job": "10000000-0000-4000-8000-00000000000A"},
        "broken_envelope",
        "job",
    ),
    "a_job_without_hyphens": ("UUIDs have hyphens", {"job": "1" * 32}, "broken_envelope", "job"),
    "a_device_with_a_line_feed": (
        "A pattern ends where the text ends",
        {"device": "20000000-0000-4000-8000-000000000001\n"},
        "broken_envelope",
        "device",
    ),
    "seq_zero": ("A chain counts from 1", {"seq": 0}, "broken_envelope", "seq"),
    "no_seq": ("seq is needed", {"seq": None}, "broken_envelope", "seq"),
    "by_a_name": ("Persons are UUIDs", {"by": "mara"}, "broken_envelope", "by"),
    "an_unknown_auth": ("auth is own, pin or picked", {"auth": "face"}, "broken_envelope", "auth"),
    "as_out_of_order": ("as is sorted", {"as": ["technician", "foreman"]}, "broken_envelope", "as"),
    "as_twice_the_same": ("as names each once", {"as": ["foreman", "foreman"]}, "broken_envelope", "as"),
    "as_beyond_ascii": ("as holds ids", {"as": ["tech\u00e9"]}, "broken_envelope", "as"),
    "as_a_string": ("as is a list", {"as": "technician"}, "broken_envelope", "as"),
    "as_empty_is_read": ("Nobody has to hold a role", {"as": []}, "", ""),
    "a_negative_at_ms": ("Clocks count from 0", {"at_ms": -1}, "broken_envelope", "at_ms"),
    "mono_ms_as_a_string": ("mono_ms is an integer", {"mono_ms": "7"}, "broken_envelope", "mono_ms"),
    "a_short_load": ("load is a UUID", {"load": "30000000"}, "broken_envelope", "load"),
    "a_kind_in_upper_case": ("A kind is a word", {"kind": "Tick"}, "broken_envelope", "kind"),
    "an_empty_kind": ("A kind is a word", {"kind": ""}, "broken_envelope", "kind"),
    "a_body_that_is_a_list": ("A body is an object", {"body": []}, "broken_envelope", "body"),
    "no_body": ("body is needed", {"body": None}, "broken_envelope", "body"),
    "a_prev_in_upper_case": ("Hashes are lower case", {"prev": "A" * 64}, "broken_envelope", "prev"),
    "a_short_prev": ("Hashes have 64 digits", {"prev": "0" * 63}, "broken_envelope", "prev"),
}


def envelope_vectors() -> dict[str, str]:
    """The file of each case, by name."""
    return {
        name: json.dumps({"about": about, "text": _text(changes), "code": code, "field": field}, indent=1)
        + "\n"
        for name, (about, changes, code, field) in CASES.items()
    }


def _text(changes: dict[str, Any]) -> str:
    scene = Scene()
    scene.tech.note("a remark")
    changed = {**scene.log[0], **changes}
    entry = {key: value for key, value in changed.items() if value is not None}
    if "hash" not in changes:
        entry["hash"] = entry_hash(entry)
    return dumps(entry)
