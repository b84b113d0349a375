"""Headers that every response carries: nothing is sniffed, framed, or fetched from another host."""

from __future__ import annotations

from urllib.parse import urlsplit, urlunsplit

from flask import Flask, Response, request

CONTENT_SECURITY_POLICY = "; ".join(
    (
        "default-src 'none'",
        "style-src 'self'",
        "script-src 'self'",
        "img-src 'self' data:",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)

ALWAYS = {
    "Content-Security-Policy": CONTENT_SECURITY_POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}


STRICT = "max-age=31536000"
"""A year of https only, once it was https: said by a proxy that is believed, or by the connection."""


def _here(location: str) -> str:
    """Where a redirect goes, on whatever host the caller reached us by: what Host says is not repeated."""
    parts = urlsplit(location)
    path = "/" + parts.path.lstrip("/\\")
    return urlunsplit(("", "", path, parts.query, parts.fragment))


def register(app: Flask) -> None:
    """Add the headers to every response of the app; a view that set its own keeps it."""

    @app.after_request
    def secure(response: Response) -> Response:
        own = {name.lower() for name, _ in response.headers}
        response.headers.extend([(name, value) for name, value in ALWAYS.items() if name.lower() not in own])
        if request.is_secure:
            response.headers.setdefault("Strict-Transport-Security", STRICT)
        if response.location:
            response.location = _here(response.location)
        if "Cache-Control" not in response.headers and request.method != "GET":
            response.headers["Cache-Control"] = "no-store"
        return response
