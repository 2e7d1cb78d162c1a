"""Tokens of forms: signed and checked as ever, but each once a worker; who answers a form carries its token on."""

from functools import lru_cache
from typing import Any

from flask import Flask, current_app, g, request, session
from flask_wtf.csrf import CSRFProtect, generate_csrf, same_origin, validate_csrf
from wtforms.validators import ValidationError

from app.web.current import FORM_TOKEN

KEPT = 1024


class FormTokens(CSRFProtect):  # type: ignore[misc] # the library has no types
    """Refuses a form without the token of its sender's session; over https also one that comes from elsewhere."""

    def init_app(self, app: Flask) -> None:
        """Have each form checked, and give templates `csrf_token()`."""
        super().init_app(app)
        app.template_context_processors[None].pop()  # the library's own, which gives the one that signs at every page
        app.jinja_env.globals["csrf_token"] = csrf_token

    def protect(self, apply_exemptions: bool = False) -> None:  # noqa: FBT001, FBT002 - the library's own
        """Check the form of this request; no page of ours is exempt."""
        del apply_exemptions
        if request.endpoint is None or request.method not in current_app.config["WTF_CSRF_METHODS"]:
            return
        sent = self._get_csrf_token()
        try:
            _check(sent, session.get(FORM_TOKEN))
        except ValidationError as error:
            self._error_response(error.args[0])
        if request.is_secure and not same_origin(request.referrer or "", f"https://{request.host}/"):
            self._error_response("The form came from elsewhere.")
        g.csrf_valid = True
        setattr(g, FORM_TOKEN, sent)


def csrf_token() -> str:
    """Return the token for the forms of this request's page."""
    token = g.get(FORM_TOKEN)
    if token is None:
        of_session = session.get(FORM_TOKEN)
        token = generate_csrf() if of_session is None else _sign(of_session)
        setattr(g, FORM_TOKEN, token)
    return str(token)


@lru_cache(maxsize=KEPT)
def _sign(of_session: Any) -> str:
    del of_session  # what the library signs
    return str(generate_csrf())


@lru_cache(maxsize=KEPT)
def _check(sent: str | None, of_session: Any) -> None:
    """Raise ValidationError, which is not kept, unless a token is signed by us for what this session holds."""
    del of_session  # what the token is compared with
    validate_csrf(sent)
