"""The port Notifier by web push: RFC 8030 over pywebpush, with VAPID (RFC 8292). Imported when first used."""

from __future__ import annotations

import base64
import time
from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from bayleaf.adapters.signatures import PrivateKey
from bayleaf.push_ports import Answer, Fate, Letter, Subscription

if TYPE_CHECKING:
    import requests

TIMES_OUT_S: Final = 10.0
TOKEN_S: Final = 12 * 3600
MOST_RETRY_S: Final = 3600
GONE: Final = (404, 410)
TOO_MANY: Final = 429
FORBIDDEN: Final = (401, 403)
FAULTS_FROM: Final = 500
TAKEN_BELOW: Final = 300
CAUSE: Final = 200


def _public_lines() -> requests.Session:
    from bayleaf.adapters.push_lines import public_session

    return public_session()


class WebPush:
    """Sends by a session of its own for each letter; tests give one that reaches their own machine."""

    def __init__(
        self, pem: str, lines: Callable[[], requests.Session] = _public_lines, timeout_s: float = TIMES_OUT_S
    ) -> None:
        self._pem = pem
        self._lines = lines
        self._timeout_s = timeout_s
        point = bytes.fromhex(PrivateKey.of_pem(pem).public_key)
        self.public_key = base64.urlsafe_b64encode(point).rstrip(b"=").decode()

    def send(self, to: Subscription, letter: Letter) -> Answer:
        """Encrypt, sign, send; what the other side answers is told, never raised."""
        import requests
        from py_vapid import Vapid02, VapidException  # type: ignore[import-untyped]  # the library ships no types
        from pywebpush import WebPushException, webpush  # type: ignore[import-untyped]  # nor does this one

        info = {"endpoint": to.endpoint, "keys": {"p256dh": to.p256dh, "auth": to.auth}}
        try:
            with self._lines() as session:
                webpush(
                    info,
                    letter.payload,
                    vapid_private_key=Vapid02.from_pem(self._pem.encode()),
                    vapid_claims={"sub": letter.contact, "exp": int(time.time()) + TOKEN_S},
                    headers={"Urgency": "high", "Topic": letter.topic},
                    ttl=letter.ttl_s,
                    timeout=self._timeout_s,
                    requests_session=session,
                )
        except (WebPushException, VapidException) as error:
            return self._refused(error)
        except requests.RequestException as error:
            return Answer(Fate.LATER, f"The push service was not reached ({type(error).__name__}).")
        except ValueError as error:
            return Answer(Fate.REFUSED, f"The subscription's keys cannot be used ({str(error)[:CAUSE]}).")
        return Answer(Fate.TAKEN)

    def _refused(self, error: Exception) -> Answer:
        response = getattr(error, "response", None)
        if response is None:
            return Answer(Fate.REFUSED, f"The call could not be made up ({str(error)[:CAUSE]}).")
        return answer_of(response.status_code, response.text, response.headers.get("Retry-After", ""))


def answer_of(status: int, said: str, retry_after: str) -> Answer:
    """What a status means (RFC 8030 sections 5 and 7.3): 404 and 410 end it, busy is asked again."""
    words = " ".join(said.split())[:CAUSE]
    told = f"The push service answered {status}" + (f": {words}" if words else ".")
    if status < TAKEN_BELOW and status >= 200:  # noqa: PLR2004  (the range of what was taken)
        return Answer(Fate.TAKEN)
    if status in GONE:
        return Answer(Fate.GONE, told)
    if status == TOO_MANY or status >= FAULTS_FROM:
        wait_s = min(int(retry_after), MOST_RETRY_S) if retry_after.isdigit() else 0
        return Answer(Fate.LATER, told, wait_s)
    if status in FORBIDDEN:
        return Answer(Fate.REFUSED, f"{told} (It does not accept this server's key or contact address.)")
    return Answer(Fate.REFUSED, told)
