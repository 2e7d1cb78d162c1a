"""Tokens of forms: checked as ever, but each once a worker; the page that answers a form carries its token on."""

from functools import lru_cache
from typing import Any

from flask import current_app, g, request, session
from flask_wtf.csrf import CSRFProtect, same_origin, validate_csrf
from wtforms.validators import ValidationError

from app.web.current import FORM_TOKEN

KEPT = 1024


class FormTokens(CSRFProtect):  # type: ignore[misc] # the library has no types
    """Refuses a form without the token of its sender's session; over https also one that comes from elsewhere."""

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


@lru_cache(maxsize=KEPT)
def _check(sent: str | None, of_session: Any) -> None:
    """Raise ValidationError, which is not kept, unless a token is signed by us for what this session holds."""
    del of_session  # what the token is compared with
    validate_csrf(sent)
