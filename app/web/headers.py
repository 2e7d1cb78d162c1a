"""What every answer carries: what the page may load, who may frame it, how long it may be kept, and its gzip form."""

import gzip
import ipaddress

from flask import Flask, Response, request
from werkzeug.exceptions import SecurityError

from app.web.settings import Settings

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "font-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'self'; "
    "frame-ancestors 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
}
YEAR_S = 31_536_000
GZIP_LEVEL = 4
SMALLEST_BYTES = 500


def set_headers(app: Flask, settings: Settings) -> None:
    """Check the host of each request, and complete each answer."""
    app.before_request(lambda: check_host(settings))
    app.after_request(compress)
    app.after_request(add_headers)


def check_host(settings: Settings) -> None:
    """Refuse a host name that is not ours: another site's name that leads here must not act in its visitors' name."""
    name = request.host.rsplit(":", 1)[0] if not request.host.endswith("]") else request.host
    if name.lower() in {"localhost", *settings.hosts}:
        return
    try:
        ipaddress.ip_address(name.strip("[]"))
    except ValueError as error:
        raise SecurityError(f"This server does not answer to {name!r}.") from error


def add_headers(response: Response) -> Response:
    """Add the security headers, which nothing else sets; pages are not kept by caches unless they say so."""
    response.headers.extend(HEADERS)
    response.headers.setdefault("Cache-Control", "no-store")
    if request.is_secure:
        response.headers.setdefault("Strict-Transport-Security", f"max-age={YEAR_S}")
    return response


def compress(response: Response) -> Response:
    """Send pages as gzip where the browser takes it."""
    if response.mimetype != "text/html" or response.direct_passthrough or "Content-Encoding" in response.headers:
        return response
    response.vary.add("Accept-Encoding")
    page = response.get_data()
    if request.accept_encodings["gzip"] > 0 and len(page) >= SMALLEST_BYTES:
        response.set_data(gzip.compress(page, GZIP_LEVEL, mtime=0))
        response.headers["Content-Encoding"] = "gzip"
    return response
