"""Whether the migrations end in exactly the tables that the models describe. Run by `check migrations`."""

from pathlib import Path
from tempfile import TemporaryDirectory

import click

from app.storage.migrate import differences, upgrade


def main() -> int:
    """Migrate an empty database to the head and compare; print every difference."""
    with TemporaryDirectory() as folder:
        database = Path(folder) / "check.sqlite3"
        upgrade(database)
        found = differences(database)
    for difference in found:
        click.echo(difference)
    return 1 if found else 0


if __name__ == "__main__":
    raise SystemExit(main())
