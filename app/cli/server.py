"""The production server: gunicorn with two workers of four threads, the application loaded once before they fork."""

import gc
import os
import signal
import socket
from dataclasses import replace
from pathlib import Path
from typing import Any

import click
from flask import Flask
from gunicorn.app.base import BaseApplication
from gunicorn.arbiter import Arbiter

from app.cli import Refused
from app.cli.apart import STOPS, apart
from app.packs.issues import PackProblems
from app.storage.migrate import NewerDatabase, UnusableDatabase, current, head, upgrade
from app.web.factory import create_app
from app.web.settings import Settings, WrongSetting

WORKERS = 2
THREADS = 4


def serve(listener: socket.socket, instance: Path, *, demonstration: bool = False) -> None:
    """Bring the database up to date and answer until a signal ends the process."""
    try:
        settings = demonstration_settings(instance) if demonstration else Settings.from_environment(instance)
        if demonstration or current(settings.database) != head():
            apart(lambda: prepare(settings))  # what migrations load would stay in every worker: ten megabytes
        application = create_app(settings)
    except (WrongSetting, NewerDatabase, UnusableDatabase) as error:
        raise Refused(str(error)) from error
    except PackProblems as problems:
        raise Refused(f"The question packs cannot be used:\n{problems}") from problems
    gc.freeze()  # what is loaded stays, and stays shared between the workers
    gc.enable()
    Server(application, listener).run()


def prepare(settings: Settings) -> None:
    """Bring the database up to date; that of a demonstration is made first, where there is none."""
    if settings.demonstration:
        from app.cli.demonstration import offer_demonstration  # noqa: PLC0415 - other starts need not wait for it

        offer_demonstration(Path(settings.database), settings.packs)
    upgrade(settings.database)


def demonstration_settings(instance: Path) -> Settings:
    """Return settings of a database in the instance's own folder, whatever the environment names."""
    elsewhere = {name: value for name, value in os.environ.items() if name != "LUBBERLINE_DATABASE"}
    return replace(Settings.from_environment(instance, elsewhere), demonstration=True)


class Server(BaseApplication):  # type: ignore[misc] # gunicorn has no types
    """Gunicorn on a port that is already taken, without its own command line and configuration files."""

    def __init__(self, application: Flask, listener: socket.socket) -> None:
        self.application = application
        self.address = address_of(listener)
        self.descriptor = listener.detach()
        super().__init__()

    def load_config(self) -> None:
        """Set what differs from gunicorn's defaults."""
        changes: dict[str, Any] = {
            "bind": f"fd://{self.descriptor}",
            "workers": WORKERS,
            "threads": THREADS,
            "worker_class": "gthread",
            "preload_app": True,
            "loglevel": "warning",
            "control_socket_disable": True,
            "proc_name": "lubberline",
            "post_worker_init": self.begin,
            "on_exit": say_stopped,
        }
        for name, value in changes.items():
            self.cfg.set(name, value)

    def load(self) -> Flask:
        """Hand over the application."""
        return self.application

    def run(self) -> None:
        """Answer until a signal ends the process."""
        Overseer(self).run()

    def begin(self, worker: Any) -> None:
        """Listen to signals, and print the address once the first worker answers on it."""
        signal.pthread_sigmask(signal.SIG_UNBLOCK, STOPS)
        if worker.age == 1:
            click.echo(f"Lubberline answers on {self.address} (Ctrl-C stops it)")


class Overseer(Arbiter):  # type: ignore[misc] # gunicorn has no types
    """Has a signal to stop wait while a worker is made: one that does not listen yet would be waited for in vain."""

    def spawn_worker(self) -> Any:
        """Make a worker; returns in the overseer alone."""
        signal.pthread_sigmask(signal.SIG_BLOCK, STOPS)
        try:
            return super().spawn_worker()
        finally:
            signal.pthread_sigmask(signal.SIG_UNBLOCK, STOPS)


def say_stopped(arbiter: Any) -> None:
    """Say that nothing runs any more."""
    del arbiter
    click.echo("Lubberline has stopped.")


def address_of(listener: socket.socket) -> str:
    """Write a listener's address as a browser takes it."""
    host, port = listener.getsockname()[:2]
    return f"http://[{host}]:{port}/" if ":" in host else f"http://{host}:{port}/"
