"""The floor behind the product's own server: run as a module, with the folder of its database."""

import sys
from pathlib import Path

from app.cli.measures.floor import floor_application
from app.cli.serve import claim_port
from app.cli.server import Server

if __name__ == "__main__":
    listener = claim_port("127.0.0.1", 0)
    with floor_application(Path(sys.argv[1]) / "floor.sqlite3") as application:
        Server(application, listener).run()
