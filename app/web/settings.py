"""What the application is told from outside, read once; everything has a default that serves one machine."""

import os
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
KEY_BYTES = 32
KEY_FILE = "secret_key"
DATABASE_FILE = "lubberline.sqlite3"


class WrongSetting(ValueError):
    """A variable of the environment holds a value that cannot be used; the message names it and what is accepted."""


@dataclass(frozen=True, slots=True)
class Settings:
    """Settings of one running application.

    database: a SQLite file or a database URL. hosts: names it answers to besides localhost and plain addresses.
    proxies: how many proxies in front of it set the forwarded headers. full_sync: SQLite waits for the disk.
    open_schools: anybody may make a school on a page.
    demonstration: everything is made up, and every page says so.
    """

    instance: Path
    database: Path | str
    secret_key: bytes = field(repr=False)
    packs: Path = ROOT / "question_packs"
    hosts: tuple[str, ...] = ()
    proxies: int = 0
    full_sync: bool = False
    threads: int = 4
    open_schools: bool = False
    demonstration: bool = False

    @classmethod
    def from_environment(cls, instance: Path, environment: Mapping[str, str] | None = None) -> "Settings":
        """Read the variables that begin with LUBBERLINE_, and the instance folder's key, made on first use."""
        given = os.environ if environment is None else environment
        database = given.get("LUBBERLINE_DATABASE", "")
        return cls(
            instance=instance,
            database=database if "://" in database else Path(database or instance / DATABASE_FILE),
            secret_key=read_secret_key(instance),
            hosts=tuple(host.lower() for host in given.get("LUBBERLINE_HOSTS", "").replace(",", " ").split()),
            proxies=_count(given, "LUBBERLINE_PROXIES"),
            full_sync=_switch(given, "LUBBERLINE_FULL_SYNC"),
            open_schools=_switch(given, "LUBBERLINE_OPEN_SCHOOLS"),
        )


def read_secret_key(instance: Path) -> bytes:
    """Return the key that signs cookies and forms; only this system's user may read its file."""
    file = instance / KEY_FILE
    if not file.exists():
        _make_secret_key(file)
    key = file.read_bytes()
    if len(key) < KEY_BYTES:
        raise WrongSetting(f"{file} holds {len(key)} bytes; a key has {KEY_BYTES}. Remove the file to get a new key.")
    return key


def _make_secret_key(file: Path) -> None:
    """Write a new key beside its place and link it there: of two starts at once, one key stays, never half of it."""
    file.parent.mkdir(parents=True, exist_ok=True)
    draft = file.with_name(f".{KEY_FILE}-{secrets.token_hex(8)}")
    descriptor = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(descriptor, "wb") as stream:
            stream.write(secrets.token_bytes(KEY_BYTES))
        os.link(draft, file)
    except FileExistsError:
        pass
    finally:
        draft.unlink()


def _count(given: Mapping[str, str], name: str) -> int:
    text = given.get(name, "0")
    if not (text.isascii() and text.isdigit() and len(text) == 1):
        raise WrongSetting(f"{name} is {text!r}; accepted: 0 to 9, such as {name}=1.")
    return int(text)


def _switch(given: Mapping[str, str], name: str) -> bool:
    text = given.get(name, "0")
    if text not in {"0", "1"}:
        raise WrongSetting(f"{name} is {text!r}; accepted: 0 or 1, such as {name}=1.")
    return text == "1"
