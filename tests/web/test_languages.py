"""The languages: what is known of them is read while the application is put together, before workers fork."""

from pathlib import Path
from typing import Any

import pytest
from babel import localedata
from flask import Flask

from app.packs.spec import LANGUAGES
from app.web.languages import speak_languages


def test_what_babel_knows_of_a_language_is_read_at_the_start(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read: dict[str, Any] = {}
    monkeypatch.setattr(localedata, "_cache", read)
    speak_languages(Flask("app.web", static_folder=None, instance_path=str(tmp_path)))
    assert set(LANGUAGES) <= read.keys()
