"""Every request is held to Host and Origin, every answer carries the headers that hold a browser."""

from __future__ import annotations

from pathlib import Path

import pytest

from bayleaf.adapters.signatures import PrivateKey
from harness.server import Bench, bench, error_of


@pytest.mark.parametrize("host", ["", "evil.example", "localhost.evil.example", "localhost:81", "[::1]"])
@pytest.mark.parametrize("path", ["/", "/api/me", "/api/jobs", "/sw.js"])
def test_another_host_is_refused_on_every_path(server: Bench, host: str, path: str) -> None:
    assert error_of(server.client(host).get(path)) == (421, "wrong_host")


@pytest.mark.parametrize("origin", ["https://evil.example", "null", "http://localhost:81", "localhost"])
@pytest.mark.parametrize("method", ["GET", "POST"])
def test_another_origin_is_refused(server: Bench, origin: str, method: str) -> None:
    answer = server.client().open("/api/me", method=method, headers={"Origin": origin})
    assert error_of(answer) == (403, "wrong_origin")


def test_a_write_that_another_sites_page_began_is_refused_even_without_origin(server: Bench) -> None:
    answer = server.office().post("/api/office/logout", json={}, headers={"Sec-Fetch-Site": "cross-site"})
    assert error_of(answer) == (403, "wrong_origin")


def test_the_servers_own_origin_is_let_in(server: Bench) -> None:
    assert server.client().get("/api/me", headers={"Origin": "http://localhost"}).status_code == 200


@pytest.mark.parametrize("path", ["/", "/api/me", "/api/nothing", "/api/jobs", "/api/openapi.json"])
def test_every_answer_carries_the_headers(server: Bench, path: str) -> None:
    headers = server.client().get(path).headers
    policy = headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "script-src 'self'" in policy
    assert "unsafe-inline" not in policy
    assert "http" not in policy
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "no-referrer"
    assert "camera=(self)" in headers["Permissions-Policy"]


def test_login_cookies_are_out_of_reach_of_scripts_and_other_sites(server: Bench) -> None:
    body = {"name": "A office", "password": "a long enough password"}
    cookie = server.client().post("/api/office/login", json=body).headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    assert "Secure" not in cookie


def test_where_https_is_the_cookie_is_secure_and_bound_to_the_host(tmp_path: Path) -> None:
    server = bench(tmp_path / "data", hosts=frozenset({"shop.example"}), https=True)
    body = {"name": "A office", "password": "a long enough password"}
    answer = server.client("shop.example").post("/api/office/login", json=body)
    assert answer.headers["Set-Cookie"].startswith("__Host-bayleaf_office=")
    assert "Secure" in answer.headers["Set-Cookie"]
    assert "max-age" in answer.headers["Strict-Transport-Security"]
    server.close()


def test_a_fault_of_the_server_is_told_as_one_and_says_nothing_of_its_inside(
    server: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken() -> int:
        raise RuntimeError("a secret inside")

    monkeypatch.setattr(server.clock, "now_ms", broken)
    answer = server.client().get("/api/me")
    assert error_of(answer) == (500, "fault")
    assert "secret inside" not in answer.text


def test_behind_a_proxy_wrong_tries_count_for_the_address_that_the_proxy_saw(tmp_path: Path) -> None:
    server = bench(tmp_path / "data", hosts=frozenset({"shop.example"}), https=True, behind_proxy=True)

    def guess(address: str) -> tuple[int, str]:
        body = {"code": "22222222", "public_key": PrivateKey.new().public_key, "name": "grey phone"}
        headers = {"X-Forwarded-For": f"203.0.113.9, {address}"}
        return error_of(server.client("shop.example").post("/api/pair/claim", json=body, headers=headers))

    assert [guess("192.0.2.1") for _ in range(21)][-1] == (429, "too_many_tries")
    assert guess("192.0.2.2") == (403, "wrong_code")
    server.close()
