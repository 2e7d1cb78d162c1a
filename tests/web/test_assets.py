"""Styles, scripts, fonts: kept for a year under an address that changes with them."""

import gzip
import re
from pathlib import Path

import pytest
from flask import Flask

from app.web.assets import Assets
from app.web.factory import STATIC
from tests.web.browsing import Browser


def addresses(browser: Browser) -> list[str]:
    return [str(each) for each in browser.get_page("/").find("//link/@href | //script/@src")]


def test_assets_are_kept_for_a_year(alice: Browser) -> None:
    for address in addresses(alice):
        response = alice.get(address)
        assert response.headers["Cache-Control"] == "public, max-age=31536000, immutable", address
        assert "Set-Cookie" not in response.headers


def test_assets_are_zipped_but_fonts_are_not(alice: Browser) -> None:
    headers = {"Accept-Encoding": "gzip"}
    style = alice.get(next(each for each in addresses(alice) if each.endswith("site.css")), headers=headers)
    assert style.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(style.data) == (STATIC / "css" / "site.css").read_bytes()
    font = alice.get("/static/x/fonts/b612-bold.woff2", headers=headers)
    assert "Content-Encoding" not in font.headers
    assert font.mimetype == "font/woff2"


def test_scripts_have_a_type_that_modules_need(alice: Browser) -> None:
    assert alice.get("/static/x/js/page.js").mimetype == "text/javascript"


def test_older_version_is_answered_but_not_kept(alice: Browser) -> None:
    response = alice.get("/static/0123456789/css/site.css")
    assert response.status_code == 200
    assert response.headers["Cache-Control"] == "no-cache"


@pytest.mark.parametrize("name", ["css/nothing.css", "../app/web/settings.py", "%2e%2e/README.md", ""])
def test_nothing_else_is_served(alice: Browser, name: str) -> None:
    assert alice.get(f"/static/x/{name}").status_code == 404


def test_address_changes_with_any_file(tmp_path: Path) -> None:
    (tmp_path / "a.css").write_text("a {}")
    first = Assets(tmp_path).version
    assert Assets(tmp_path).version == first
    (tmp_path / "a.css").write_text("b {}")
    assert Assets(tmp_path).version != first


def test_unknown_asset_stops_the_page(app: Flask) -> None:
    with app.test_request_context(), pytest.raises(KeyError, match=r"css/missing\.css"):
        app.jinja_env.from_string("{{ asset('css/missing.css') }}").render()


def test_files_name_only_files_that_exist() -> None:
    """Styles name fonts and scripts name scripts by relative addresses."""
    for file in [*STATIC.rglob("*.css"), *STATIC.rglob("*.js")]:
        for name in re.findall(r"url\(\"([^\"]+)\"\)|from \"([^\"]+)\"", file.read_text("utf-8")):
            assert (file.parent / "".join(name)).resolve().is_file(), (file.name, name)


def test_fonts_stand_beside_their_licence() -> None:
    assert "SIL OPEN FONT LICENSE" in (STATIC / "fonts" / "OFL.txt").read_text("utf-8").upper()
