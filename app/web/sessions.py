"""The session cookie: signed, out of reach of scripts, and over https only sent there."""

from copy import deepcopy
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from typing import Any

from flask import Flask, Request, request
from flask.sessions import SecureCookieSession, SecureCookieSessionInterface, SessionMixin
from itsdangerous import BadSignature, URLSafeTimedSerializer

from app.services.visits import IDLE
from app.web.settings import Settings

COOKIE = "lubberline"
KEPT = 1024
RENEW_AFTER = timedelta(days=1)
LASTS = IDLE + RENEW_AFTER  # so that a cookie which is not renewed at each page still outlasts the visit


class Session(SecureCookieSession):
    """What the cookie holds, and when it was signed: None where it came without one."""

    signed_at: datetime | None = None


class SessionInterface(SecureCookieSessionInterface):
    """Flask's own signed cookie, renewed once a day; what is for every cache (styles, fonts) never carries it."""

    session_class = Session
    _serializer: URLSafeTimedSerializer | None = None

    def __init__(self) -> None:
        self._read = lru_cache(maxsize=KEPT)(self._read_signed)  # a browser sends the same cookie with every page

    def get_signing_serializer(self, app: Flask) -> URLSafeTimedSerializer | None:
        """Return what signs cookies: the same always, since the key stays."""
        if self._serializer is None:
            self._serializer = super().get_signing_serializer(app)
        return self._serializer

    def _read_signed(self, app: Flask, sent: str) -> tuple[dict[str, Any], datetime]:
        serializer = self.get_signing_serializer(app)
        if serializer is None:
            raise BadSignature("there is no key")
        held, signed_at = serializer.loads(sent, return_timestamp=True)
        return held, signed_at

    def open_session(self, app: Flask, request: Request) -> Session:
        """Return what the cookie holds; nothing where there is none, or none of ours."""
        sent = request.cookies.get(COOKIE)
        if not sent:
            return Session()
        try:
            held, signed_at = self._read(app, sent)
        except BadSignature:
            return Session()
        if not timedelta(0) <= datetime.now(UTC) - signed_at <= LASTS:
            return Session()
        session = Session(deepcopy(held))
        session.signed_at = signed_at
        return session

    def get_cookie_secure(self, app: Flask) -> bool:
        """Mark the cookie for https alone where the page came that way."""
        del app
        return request.is_secure

    def should_set_cookie(self, app: Flask, session: SessionMixin) -> bool:
        """Send the cookie when it changed, and once a day so that it lasts as long as the visit."""
        del app
        if request.endpoint == "static":
            return False
        signed_at = getattr(session, "signed_at", None)
        fresh = signed_at is not None and datetime.now(UTC) - signed_at < RENEW_AFTER
        return session.modified or (session.permanent and not fresh)


def keep_sessions(app: Flask, settings: Settings) -> None:
    """Set the key and the cookie's properties."""
    app.secret_key = settings.secret_key
    app.session_interface = SessionInterface()
    app.config.update(
        SESSION_COOKIE_NAME=COOKIE,
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        PERMANENT_SESSION_LIFETIME=LASTS,
    )
