"""Serve the drills: claim the port, look after the instance folder, bring the database up to date, then answer."""

import gc
import os
import socket
from pathlib import Path

import click

from app.cli import PROGRAM, Refused
from app.environment import ROOT

BACKLOG = 2048
DEMONSTRATION = "demonstration"  # the folder, inside the instance, of all that is made up


class Port(click.ParamType[int]):
    """A port number."""

    name = "port"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> int:
        """Take 0 to 65535, written in digits."""
        text = str(value)
        if not (text.isascii() and text.isdigit() and len(text) <= 5 and int(text) <= 65535):
            self.fail(f"{text!r} is no port: give a whole number from 0 to 65535.", param, ctx)
        return int(text)


@click.command()
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to answer on.")
@click.option(
    "--port",
    type=Port(),
    default=8000,
    envvar="PORT",
    show_default=True,
    show_envvar=True,
    help="Port to answer on; 0 takes any free one.",
)
@click.option(
    "--instance",
    type=click.Path(path_type=Path, file_okay=False),
    default=ROOT / "instance",
    envvar="LUBBERLINE_INSTANCE",
    show_default="instance",
    show_envvar=True,
    help="Folder of the database and the secret key.",
)
@click.option(
    "--demo", is_flag=True, help="Serve an invented school with simulated students, in a database of its own."
)
def command(host: str, port: int, instance: Path, demo: bool) -> None:  # noqa: FBT001 - a switch of the command line
    """Serve the drills to a browser until Ctrl-C."""
    instance = instance / DEMONSTRATION if demo else instance
    check_platform(os.name)
    listener = claim_port(host, port)
    check_instance(instance)
    gc.disable()  # loading makes nothing to collect; the server turns it on again
    from app.cli.server import serve  # noqa: PLC0415 - loads the application; the refusals above need not wait for it

    serve(listener, instance, demonstration=demo)


def check_platform(name: str) -> None:
    """Refuse an operating system on which the production server cannot run."""
    if name != "posix":
        raise Refused("The server needs Linux, macOS or the Windows Subsystem for Linux; it cannot run on this system.")


def claim_port(host: str, port: int) -> socket.socket:
    """Take the port now, so that nobody gets it while the application loads and early visitors wait in line."""
    try:
        family, *_, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE)[0]
    except socket.gaierror as error:
        raise Refused(f"The address {host!r} is not known: {error.strerror}.") from error
    listener = socket.socket(family, socket.SOCK_STREAM)
    try:
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listener.bind(address)
        listener.listen(BACKLOG)
    except OSError as error:
        listener.close()
        other = port + 1 if 1024 <= port < 65535 else 8001
        raise Refused(
            f"Port {port} on {host} cannot be used: {error.strerror}.\n"
            f"Stop what uses it, or choose another: {PROGRAM} --port {other}"
        ) from error
    return listener


def check_instance(instance: Path) -> None:
    """Make the instance folder, and refuse one that cannot be written."""
    probe = instance / f".write-probe-{os.getpid()}"
    try:
        instance.mkdir(parents=True, exist_ok=True)
        probe.touch()
        probe.unlink()
    except OSError as error:
        raise Refused(
            f"The instance folder {instance} cannot be written: {error.strerror}.\n"
            f"Make it writable, or choose another: {PROGRAM} serve --instance FOLDER"
        ) from error
