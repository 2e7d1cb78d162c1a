"""The session cookie: signed, out of reach of scripts, and over https only sent there."""

from flask import Flask, request
from flask.sessions import SecureCookieSessionInterface, SessionMixin

from app.services.visits import IDLE
from app.web.settings import Settings

COOKIE = "lubberline"


class SessionInterface(SecureCookieSessionInterface):
    """Flask's own signed cookie; what is for every cache (styles, fonts) never carries it."""

    def get_cookie_secure(self, app: Flask) -> bool:
        """Mark the cookie for https alone where the page came that way."""
        del app
        return request.is_secure

    def should_set_cookie(self, app: Flask, session: SessionMixin) -> bool:
        """Send the cookie when it changed, and with each page of a visit so that it lasts as long as the visit."""
        return request.endpoint != "static" and super().should_set_cookie(app, session)


def keep_sessions(app: Flask, settings: Settings) -> None:
    """Set the key and the cookie's properties."""
    app.secret_key = settings.secret_key
    app.session_interface = SessionInterface()
    app.config.update(
        SESSION_COOKIE_NAME=COOKIE,
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        PERMANENT_SESSION_LIFETIME=IDLE,
    )
