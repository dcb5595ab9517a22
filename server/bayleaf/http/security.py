"""Before every request: Host, Origin, cookies; behind every answer: the headers that hold a browser."""

from __future__ import annotations

from urllib.parse import urlsplit

from flask import Flask, Response, g, request

from bayleaf.http.callers import Caller
from bayleaf.http.parts import Parts, now_ms, parts
from bayleaf.usecases.readings_keys import key_of
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sessions import OpenLogin, device_of_token, office_of_token

DEVICE_COOKIE = "bayleaf_device"
OFFICE_COOKIE = "bayleaf_office"
UNSAFE = frozenset({"POST", "PUT", "PATCH", "DELETE"})

CONTENT_SECURITY_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob: data:",
        "media-src 'self' blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
        "object-src 'none'",
    )
)
HEADERS = {
    "Content-Security-Policy": CONTENT_SECURITY_POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Permissions-Policy": "camera=(self), screen-wake-lock=(self), microphone=(), geolocation=(), payment=()",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
TWO_YEARS_S = 63_072_000


def register(app: Flask) -> None:
    """Put both ends in place."""
    app.before_request(check_request)
    app.after_request(add_headers)


def check_request() -> None:
    """Refuse other Hosts and Origins, then see who is calling."""
    chosen = parts()
    host = request.headers.get("Host", "").lower()
    if host not in chosen.shop.hosts:
        found = host[:100] or "none"
        message = f"Host: found {found}, this server answers to {', '.join(sorted(chosen.shop.hosts))}."
        raise Refusal("wrong_host", message, "Host")
    _check_origin(host)
    if request.path.startswith("/api/"):
        g.caller = _caller(chosen)


def _check_origin(host: str) -> None:
    origin = request.headers.get("Origin")
    if origin is not None and urlsplit(origin).netloc.lower() != host:
        message = f"Origin: found {origin[:100]}, allowed is only this server's own, {host}."
        raise Refusal("wrong_origin", message, "Origin")
    if request.method in UNSAFE and request.headers.get("Sec-Fetch-Site", "same-origin") == "cross-site":
        raise Refusal("wrong_origin", "Sec-Fetch-Site: a page of another site may not write here.", "Origin")


def _caller(chosen: Parts) -> Caller:
    word, _, secret = request.headers.get("Authorization", "").partition(" ")
    device_token = request.cookies.get(cookie_name(DEVICE_COOKIE), "")
    office_token = request.cookies.get(cookie_name(OFFICE_COOKIE), "")
    return Caller(
        device=device_of_token(chosen.doors, device_token, now_ms()) if device_token else None,
        office=office_of_token(chosen.doors, office_token, now_ms()) if office_token else None,
        logger=key_of(chosen.office, secret.strip()) if word.lower() == "bearer" and secret else None,
    )


def device_slug() -> str:
    """Which of the demo's devices this Host is; empty elsewhere."""
    return parts().shop.slug_of.get(request.headers.get("Host", "").lower(), "")


def cookie_name(door: str) -> str:
    """Cookies ignore ports, so in the demo the name carries the device; `__Host-` holds it to this host."""
    slug = device_slug()
    name = f"{door}_{slug}" if slug else door
    return f"__Host-{name}" if parts().shop.https else name


def set_login(response: Response, door: str, login: OpenLogin) -> Response:
    """Hand the token over, out of reach of scripts."""
    response.set_cookie(
        cookie_name(door),
        login.token,
        max_age=max(0, (login.expires_ms - now_ms()) // 1000),
        httponly=True,
        secure=parts().shop.https,
        samesite="Strict",
        path="/",
    )
    return response


def drop_login(response: Response, door: str) -> Response:
    """Take the token back."""
    response.delete_cookie(
        cookie_name(door), path="/", httponly=True, secure=parts().shop.https, samesite="Strict"
    )
    return response


def add_headers(response: Response) -> Response:
    """The same on every answer; a view that needs a narrower one has set it already."""
    for name, text in HEADERS.items():
        response.headers.setdefault(name, text)
    if request.path.startswith("/api/"):
        response.headers.setdefault("Cache-Control", "no-store")
    if parts().shop.https:
        response.headers.setdefault("Strict-Transport-Security", f"max-age={TWO_YEARS_S}")
    return response
