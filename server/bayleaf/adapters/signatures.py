"""P-256 keys and signatures, as WebCrypto makes them: raw r and s, 128 hex digits, over SHA-256."""

from __future__ import annotations

import hashlib
import hmac

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import decode_dss_signature, encode_dss_signature

COORDINATE_BYTES = 32
PUBLIC_KEY_DIGITS = 130
SIGNATURE_DIGITS = 128
HEX_DIGITS = frozenset("0123456789abcdef")
ECDSA = ec.ECDSA(hashes.SHA256())


class PrivateKey:
    """A P-256 key that signs; also the port Seal."""

    def __init__(self, key: ec.EllipticCurvePrivateKey) -> None:
        self._key = key
        self.public_key = (
            key.public_key()
            .public_bytes(serialization.Encoding.X962, serialization.PublicFormat.UncompressedPoint)
            .hex()
        )

    @classmethod
    def new(cls) -> PrivateKey:
        """A new key."""
        return cls(ec.generate_private_key(ec.SECP256R1()))

    @classmethod
    def of_pem(cls, pem: str) -> PrivateKey:
        """The key in an unencrypted PKCS 8 text; ValueError where it is no P-256 key."""
        key = serialization.load_pem_private_key(pem.encode(), password=None)
        if not isinstance(key, ec.EllipticCurvePrivateKey) or key.curve.name != "secp256r1":
            raise ValueError("found a key of another kind, allowed is P-256")
        return cls(key)

    def pem(self) -> str:
        """The key as PKCS 8, not encrypted: the file's mode keeps it."""
        return self._key.private_bytes(
            serialization.Encoding.PEM,
            serialization.PrivateFormat.PKCS8,
            serialization.NoEncryption(),
        ).decode()

    def sign(self, text: str) -> str:
        """The signature of the text's UTF-8."""
        r, s = decode_dss_signature(self._key.sign(text.encode(), ECDSA))
        return (r.to_bytes(COORDINATE_BYTES, "big") + s.to_bytes(COORDINATE_BYTES, "big")).hex()


def is_public_key(public_key: str) -> bool:
    """Whether this is an uncompressed point on P-256, as 130 lower-case hex digits."""
    return _public_key(public_key) is not None


def verifies(public_key: str, text: str, signature: str) -> bool:
    """Whether the holder of the key signed the text."""
    key = _public_key(public_key)
    if key is None or len(signature) != SIGNATURE_DIGITS or not HEX_DIGITS.issuperset(signature):
        return False
    r, s = int(signature[:64], 16), int(signature[64:], 16)
    try:
        key.verify(encode_dss_signature(r, s), text.encode(), ECDSA)
    except InvalidSignature:
        return False
    return True


def fingerprint(public_key: str) -> str:
    """SHA-256 of the key's 65 bytes, hex."""
    return hashlib.sha256(bytes.fromhex(public_key)).hexdigest()


def in_groups(digits: str) -> str:
    """A fingerprint for reading aloud: groups of four."""
    return " ".join(digits[start : start + 4] for start in range(0, len(digits), 4))


class ServerKeys:
    """The port Keys, with the server's secret for keyed hashes."""

    def __init__(self, secret: bytes) -> None:
        self._secret = secret

    def is_public_key(self, public_key: str) -> bool:
        """Whether this is a P-256 public key in our form."""
        return is_public_key(public_key)

    def verifies(self, public_key: str, text: str, signature: str) -> bool:
        """Whether the holder of the key signed the text."""
        return verifies(public_key, text, signature)

    def keyed_hash(self, purpose: str, secret_text: str) -> str:
        """HMAC-SHA256: a short code cannot be found again from a copy of the store alone."""
        message = f"{purpose}\n{secret_text}".encode()
        return hmac.new(self._secret, message, hashlib.sha256).hexdigest()


def _public_key(public_key: str) -> ec.EllipticCurvePublicKey | None:
    if len(public_key) != PUBLIC_KEY_DIGITS or not HEX_DIGITS.issuperset(public_key):
        return None
    try:
        return ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), bytes.fromhex(public_key))
    except ValueError:
        return None
