"""What is compiled once and kept in the instance folder for later starts: the pages' templates and texts.

What is found is used only where it was made of the very same source; anything else is made and kept anew.
"""

import os
from collections.abc import Callable, Mapping
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from pickle import UnpicklingError

import jinja2
from jinja2.bccache import Bucket, FileSystemBytecodeCache

DIGEST_BYTES = 32


class KeptTemplates(FileSystemBytecodeCache):
    """Compiled templates, found by their source, Jinja's version and what they were compiled with."""

    def __init__(self, folder: Path, compiler: type, options: Mapping[str, bool]) -> None:
        with suppress(OSError):
            folder.mkdir(parents=True, exist_ok=True)
        super().__init__(str(folder), "%s.cache")
        self._made_with = f"{jinja2.__version__} {compiler.__name__} {sorted(options.items())}"

    def get_cache_key(self, name: str, filename: str | None = None) -> str:
        """Return the key of a template."""
        return super().get_cache_key(name, f"{filename} {self._made_with}")

    def load_bytecode(self, bucket: Bucket) -> None:
        """Take what was kept; a file that cannot be read is as none."""
        try:
            super().load_bytecode(bucket)
        except (OSError, EOFError, ValueError, UnpicklingError):
            bucket.reset()

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a template; where that cannot be, the next start compiles it again."""
        with suppress(OSError):
            super().dump_bytecode(bucket)


def compiled(file: Path, source: bytes, make: Callable[[], bytes]) -> bytes:
    """Return what `make` makes of the source, from `file` where it was kept whole."""
    made_of = sha256(source).digest()
    with suppress(OSError):
        held = file.read_bytes()
        body = held[2 * DIGEST_BYTES :]
        if held.startswith(made_of + sha256(body).digest()):
            return body
    made = make()
    beside = file.with_name(f"{file.name}.{os.getpid()}")
    with suppress(OSError):
        beside.write_bytes(made_of + sha256(made).digest() + made)
        beside.replace(file)
    return made
