"""Browsers by the names people know, from what such browsers send (from memory)."""

import pytest

from app.web.account.devices import device_words

KIT = "AppleWebKit/537.36 (KHTML, like Gecko)"


@pytest.mark.parametrize(
    ("told", "words"),
    [
        (f"Mozilla/5.0 (Windows NT 10.0; Win64; x64) {KIT} Chrome/131.0.0.0 Safari/537.36 Edg/131.0", "Edge, Windows"),
        (f"Mozilla/5.0 (Linux; Android 14) {KIT} Chrome/131.0.0.0 Mobile Safari/537.36", "Chrome, Android"),
        ("Mozilla/5.0 (Macintosh; Intel Mac OS X 10.15; rv:132.0) Gecko/20100101 Firefox/132.0", "Firefox, Mac"),
        ("Mozilla/5.0 (iPhone; CPU iPhone OS 17_2 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko)", "iPhone"),
        ("something of one's own", "something of one's own"),
        ("", ""),
    ],
)
def test_words(told: str, words: str) -> None:
    assert device_words(told) == words
