"""Puts the application together; importing it has no effect, and no endpoint is open unless it says to whom."""

from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from datetime import datetime
from pathlib import Path

from flask import Flask
from werkzeug.middleware.proxy_fix import ProxyFix

from app.services.entrance import Entrance
from app.services.library import Shelf
from app.services.passwords import Argon2, Hasher
from app.storage.engine import StorageSettings, create_engine_for
from app.storage.unit_of_work import UnitOfWork
from app.web.access import guard_requests
from app.web.account import account
from app.web.assets import serve_assets
from app.web.bench import bench
from app.web.compiled import KeptTemplates
from app.web.current import NAME, Backend, fresh_seed, utc_now
from app.web.errors import show_errors
from app.web.form_tokens import FormTokens
from app.web.front import front
from app.web.headers import set_headers
from app.web.instructor import instructor
from app.web.languages import speak_languages
from app.web.navigation import add_navigation
from app.web.own import own
from app.web.page_text import add_text_filters
from app.web.parts import Environment, PageCode, keep_parts
from app.web.rules import LateRule
from app.web.school import school
from app.web.sessions import keep_sessions
from app.web.sets import sets
from app.web.settings import Settings
from app.web.student import student
from app.web.tables import in_blocks

STATIC = Path(__file__).resolve().parents[2] / "static"
KEPT_PACKS, KEPT_TEMPLATES = "packs.json", "templates"
TEMPLATE_OPTIONS = {"trim_blocks": True, "lstrip_blocks": True}
KEEP_ALL = -1  # of the templates, once loaded: Jinja goes through its list of the latest at each look-up
LARGEST_REQUEST_BYTES = 256 * 1024


def create_app(
    settings: Settings,
    clock: Callable[[], datetime] = utc_now,
    draw_seed: Callable[[], int] = fresh_seed,
    hasher: Hasher | None = None,
) -> Flask:
    """Return the application; raises PackProblems for packs with errors and UndeclaredEndpoints."""
    app = Flask("app.web", static_folder=None, instance_path=str(settings.instance.resolve()))
    app.config.update(MAX_CONTENT_LENGTH=LARGEST_REQUEST_BYTES, WTF_CSRF_TIME_LIMIT=None)
    app.jinja_environment, app.url_rule_class = Environment, LateRule
    kept_templates = KeptTemplates(settings.instance / KEPT_TEMPLATES, PageCode, TEMPLATE_OPTIONS)
    app.jinja_options = {**TEMPLATE_OPTIONS, "bytecode_cache": kept_templates, "cache_size": KEEP_ALL}
    app.extensions[NAME] = Backend(
        _storage(settings),
        Shelf(settings.packs, settings.instance / KEPT_PACKS),
        Entrance(hasher or Argon2()),
        clock,
        draw_seed,
        settings.open_schools,
    )
    keep_sessions(app, settings)
    set_headers(app, settings)
    speak_languages(app)
    add_text_filters(app)
    app.jinja_env.filters["in_blocks"] = in_blocks
    app.jinja_env.globals["demonstration"] = settings.demonstration
    add_navigation(app)
    keep_parts(app)
    FormTokens(app)
    show_errors(app)
    serve_assets(app, STATIC)
    for area in (front, account, bench, student, instructor, school, sets, own):
        app.register_blueprint(area)
    guard_requests(app)
    if settings.proxies:
        app.wsgi_app = ProxyFix(app.wsgi_app, settings.proxies, settings.proxies, x_host=settings.proxies)  # type: ignore[method-assign]
    return app


@contextmanager
def running(
    settings: Settings,
    clock: Callable[[], datetime] = utc_now,
    draw_seed: Callable[[], int] = fresh_seed,
    hasher: Hasher | None = None,
) -> Iterator[Flask]:
    """Yield the application for as long as somebody needs it in this process, then close its connections."""
    app = create_app(settings, clock, draw_seed, hasher)
    with closing(app.extensions[NAME].uow):
        yield app


def _storage(settings: Settings) -> UnitOfWork:
    opened = StorageSettings(threads=settings.threads, full_sync=settings.full_sync)
    return UnitOfWork(create_engine_for(settings.database, opened))
