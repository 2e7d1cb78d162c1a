"""Settings from the environment, and the key in the instance folder."""

import stat
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest
from flask import Flask

from app.web.settings import KEY_BYTES, KEY_FILE, Settings, WrongSetting, read_secret_key
from tests.fakes import PlainHasher
from tests.web.browsing import Browser


def test_defaults_serve_one_machine(tmp_path: Path) -> None:
    settings = Settings.from_environment(tmp_path, {})
    assert settings.database == tmp_path / "lubberline.sqlite3"
    assert (settings.hosts, settings.proxies, settings.full_sync) == ((), 0, False)
    assert settings.packs.name == "question_packs"


def test_environment_is_read(tmp_path: Path) -> None:
    given = {
        "LUBBERLINE_DATABASE": "postgresql+psycopg:///school",
        "LUBBERLINE_HOSTS": "Ground.School.example, drills.example",
        "LUBBERLINE_PROXIES": "1",
        "LUBBERLINE_FULL_SYNC": "1",
    }
    settings = Settings.from_environment(tmp_path, given)
    assert settings.database == "postgresql+psycopg:///school"
    assert settings.hosts == ("ground.school.example", "drills.example")
    assert (settings.proxies, settings.full_sync) == (1, True)


def test_database_may_be_another_file(tmp_path: Path) -> None:
    settings = Settings.from_environment(tmp_path, {"LUBBERLINE_DATABASE": str(tmp_path / "other.sqlite3")})
    assert settings.database == tmp_path / "other.sqlite3"


@pytest.mark.parametrize(
    ("name", "value"),
    [("LUBBERLINE_PROXIES", "two"), ("LUBBERLINE_PROXIES", "-1"), ("LUBBERLINE_FULL_SYNC", "yes")],
)
def test_wrong_setting_is_named(tmp_path: Path, name: str, value: str) -> None:
    with pytest.raises(WrongSetting, match=f"{name} is '{value}'; accepted"):
        Settings.from_environment(tmp_path, {name: value})


def test_key_is_made_once_and_for_this_user_alone(tmp_path: Path) -> None:
    first = read_secret_key(tmp_path / "instance")
    file = tmp_path / "instance" / KEY_FILE
    assert len(first) == KEY_BYTES
    assert read_secret_key(tmp_path / "instance") == first
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert [each.name for each in file.parent.iterdir()] == [KEY_FILE]


def test_starts_at_once_agree_on_a_key(tmp_path: Path) -> None:
    with ThreadPoolExecutor(8) as pool:
        keys = set(pool.map(read_secret_key, [tmp_path] * 8))
    assert len(keys) == 1


def test_half_a_key_is_refused(tmp_path: Path) -> None:
    (tmp_path / KEY_FILE).write_bytes(b"short")
    with pytest.raises(WrongSetting, match="5 bytes"):
        read_secret_key(tmp_path)


def test_key_is_not_shown(tmp_path: Path) -> None:
    assert "secret" not in repr(Settings(tmp_path, tmp_path, b"secret" * 8)).replace("secret_key", "")


def test_demonstration_is_marked_on_every_page_and_nothing_else_is(
    run: Callable[..., Flask], settings: Settings
) -> None:
    marked = run(replace(settings, demonstration=True), hasher=PlainHasher())
    for address in ("/", "/topics", "/bench", "/nowhere"):
        page = Browser(marked).get(address).get_data(as_text=True)
        assert "Demonstration: school, people and answers are made up." in page
    assert "Demonstration" not in Browser(run(settings, hasher=PlainHasher())).get("/").get_data(as_text=True)
