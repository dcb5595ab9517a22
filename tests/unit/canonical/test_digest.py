"""Digests: of bytes, of an entry, of a set of hashes."""

import hashlib

from bayleaf.canonical.digest import entry_hash, set_digest, sha256_hex, value_digest


def test_sha256_is_that_of_fips_180_4() -> None:
    """The value for "abc": FIPS 180-4, example of NIST's CSRC for SHA-256."""
    assert sha256_hex(b"abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_an_entrys_hash_leaves_its_own_hash_out() -> None:
    bare = {"v": 1, "kind": "note"}
    expected = hashlib.sha256(b'{"kind":"note","v":1}').hexdigest()
    assert entry_hash(bare) == expected
    assert entry_hash({**bare, "hash": "anything"}) == expected


def test_the_digest_of_a_set_is_of_its_sorted_hashes_joined_by_line_feeds() -> None:
    one, two = "a" * 64, "b" * 64
    expected = hashlib.sha256(f"{one}\n{two}".encode()).hexdigest()
    assert set_digest([two, one]) == expected
    assert set_digest([one, two, one]) == expected


def test_the_digest_of_no_hashes_is_that_of_nothing() -> None:
    assert set_digest([]) == hashlib.sha256(b"").hexdigest()


def test_the_digest_of_a_value_does_not_depend_on_the_order_of_its_keys() -> None:
    assert value_digest({"a": 1, "b": [2]}) == value_digest({"b": [2], "a": 1})
