"""The line out to a push service: HTTPS to public addresses only, no redirects, no proxies, short answers.

The endpoint comes from a browser, so it is not trusted: the address is judged on the connected socket, where
no name server can change its mind any more.
"""

from __future__ import annotations

import socket
from typing import Any, Final

import requests
from requests.adapters import HTTPAdapter
from urllib3.connection import HTTPSConnection
from urllib3.connectionpool import HTTPSConnectionPool
from urllib3.exceptions import NewConnectionError
from urllib3.poolmanager import PoolManager

from bayleaf.usecases.push_endpoint import is_public

LONGEST_ANSWER: Final = 2_000


class PublicConnection(HTTPSConnection):
    """Hangs up before the first byte where the other end is not out in the internet."""

    def _new_conn(self) -> socket.socket:
        made = super()._new_conn()
        address = str(made.getpeername()[0]).split("%")[0]
        if not is_public(address):
            made.close()
            raise NewConnectionError(self, f"{address} is not a public address")
        return made


class PublicPool(HTTPSConnectionPool):
    """Connections of that kind."""

    ConnectionCls = PublicConnection


class PublicLines(HTTPAdapter):
    """Makes them for requests."""

    def init_poolmanager(self, connections: int, maxsize: int, block: bool = False, **named: Any) -> None:  # noqa: FBT001, FBT002  (requests' own signature)
        """As requests asks for it."""
        self.poolmanager = PoolManager(num_pools=connections, maxsize=maxsize, block=block, **named)
        self.poolmanager.pool_classes_by_scheme = {"https": PublicPool}


class PushSession(requests.Session):
    """A session that follows nothing and reads no more than a short answer."""

    def __init__(self) -> None:
        super().__init__()
        self.trust_env = False

    def request(self, *given: Any, **named: Any) -> requests.Response:
        """One request; the answer is cut."""
        named |= {"allow_redirects": False, "stream": True}
        with super().request(*given, **named) as response:
            cut = response.raw.read(LONGEST_ANSWER, decode_content=False)
            response._content = bytes(cut or b"")  # noqa: SLF001  (requests offers no bounded read)
            return response


def public_session() -> requests.Session:
    """The one to use; tests give a session that reaches their own machine."""
    session = PushSession()
    session.mount("https://", PublicLines())
    session.mount("http://", NoLines())
    return session


class NoLines(HTTPAdapter):
    """Nothing goes out in the open."""

    def send(self, *_given: Any, **_named: Any) -> requests.Response:
        """Never."""
        raise requests.exceptions.InvalidSchema("a push service is called by https only")
