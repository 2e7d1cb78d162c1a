"""Style, scripts, fonts and icons: read once, compressed once, under an address that changes when any of them does."""

import gzip
import hashlib
import mimetypes
from dataclasses import dataclass
from pathlib import Path

from flask import Flask, Response, request
from werkzeug.exceptions import NotFound

from app.web.access import EVERYBODY, allow
from app.web.headers import YEAR_S

COMPRESSED = frozenset({".css", ".js", ".svg", ".txt", ".webmanifest"})
# Named here: what the system's own list calls them differs from machine to machine.
TYPES = {".js": "text/javascript", ".woff2": "font/woff2", ".webmanifest": "application/manifest+json"}
DIGEST_LETTERS = 10


@dataclass(frozen=True, slots=True)
class Asset:
    """One file as it is sent."""

    body: bytes
    mimetype: str
    zipped: bytes | None


class Assets:
    """All static files of one version; files may name each other by relative addresses."""

    def __init__(self, folder: Path) -> None:
        files = sorted(file for file in folder.rglob("*") if file.is_file())
        self._assets = {file.relative_to(folder).as_posix(): _read(file) for file in files}
        digest = hashlib.sha256()
        for name, asset in self._assets.items():
            digest.update(name.encode() + b"\0" + asset.body)
        self.version = digest.hexdigest()[:DIGEST_LETTERS]

    def address(self, name: str) -> str:
        """Return the address of a file; KeyError for one that does not exist."""
        if name not in self._assets:
            raise KeyError(f"static/{name} does not exist")
        return f"{request.script_root}/static/{self.version}/{name}"

    @allow(*EVERYBODY)
    def send(self, version: str, name: str) -> Response:
        """Answer with a file. An older page that asks for an earlier version gets the present one, not to be kept."""
        if name not in self._assets:
            raise NotFound
        asset = self._assets[name]
        response = Response(asset.body, mimetype=asset.mimetype)
        if asset.zipped is not None:
            response.vary.add("Accept-Encoding")
            if request.accept_encodings["gzip"] > 0:
                response.set_data(asset.zipped)
                response.headers["Content-Encoding"] = "gzip"
        kept = f"public, max-age={YEAR_S}, immutable" if version == self.version else "no-cache"
        response.headers["Cache-Control"] = kept
        return response


def serve_assets(app: Flask, folder: Path) -> None:
    """Add the endpoint `static`, and `asset("css/site.css")` for templates."""
    assets = Assets(folder)
    app.add_url_rule("/static/<version>/<path:name>", "static", assets.send)
    app.jinja_env.globals["asset"] = assets.address


def _read(file: Path) -> Asset:
    body = file.read_bytes()
    mimetype = TYPES.get(file.suffix) or mimetypes.guess_type(file.name)[0] or "application/octet-stream"
    zipped = gzip.compress(body, 9, mtime=0) if file.suffix in COMPRESSED else None
    return Asset(body, mimetype, zipped)
