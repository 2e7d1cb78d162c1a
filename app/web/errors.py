"""Refusals and failures as pages: one table from what happened to a status, in the reader's language, never a trace."""

from dataclasses import dataclass
from http import HTTPStatus

from flask import Flask, Response, g, make_response, render_template, request
from flask_babel import lazy_gettext as _
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException, InternalServerError, RequestEntityTooLarge

from app.services import errors, visits
from app.web.current import now, visit_has_ended, wished_language

STATUS: dict[type[Exception], int] = {
    errors.NotFound: 404,
    errors.NotAllowed: 403,
    errors.Conflict: 409,
    errors.Invalid: 422,
    errors.TooOften: 429,
}
# What may be sent again after a token that was not accepted: never the token itself, and only as much as a page holds.
SECRET_FIELDS = frozenset({"csrf_token", "password", "code"})
LONGEST_FIELD = 2000
MOST_FIELDS = 60
DRAINED_BYTES = 32_000_000
CHUNK_BYTES = 65_536


@dataclass(frozen=True, slots=True)
class ErrorText:
    """What a page says about one status."""

    title: object
    text: object


TEXTS: dict[int, ErrorText] = {
    400: ErrorText(_("This request cannot be read"), _("Something in the address or the form is not as it should be.")),
    403: ErrorText(
        _("This is not open to you"), _("The page exists, but what you asked for is for somebody else to do.")
    ),
    404: ErrorText(
        _("There is nothing here"),
        _("The address may be mistyped, or it leads to a drill that belongs to another browser."),
    ),
    405: ErrorText(
        _("Not in this way"), _("This address takes another kind of request. Go back and use the page’s own buttons.")
    ),
    409: ErrorText(_("Something has changed meanwhile"), _("Nothing was counted and nothing was lost.")),
    413: ErrorText(
        _("That is too much text"),
        _("An answer has up to 60 characters and a report up to 2000. Nothing was counted; go back and shorten it."),
    ),
    422: ErrorText(_("A value cannot be accepted"), _("Nothing was counted. Go back and change it.")),
    429: ErrorText(_("Too many requests"), _("Wait a minute, then go on.")),
    500: ErrorText(
        _("The program failed"),
        _("It is not your doing. Your earlier answers are kept; try again, and tell your school if it stays so."),
    ),
}


def show_errors(app: Flask) -> None:
    """Give every way to fail its page."""
    for refusal in STATUS:
        app.register_error_handler(refusal, show_refusal)
    app.register_error_handler(CSRFError, show_unaccepted_form)
    app.register_error_handler(RequestEntityTooLarge, show_too_large)
    app.register_error_handler(InternalServerError, show_failure)
    app.register_error_handler(HTTPException, show_http_error)


def error_page(status: int, detail: str = "") -> Response:
    """Return the page of a status."""
    known = status if status in TEXTS else (400 if status < 500 else 500)
    page = render_template("error.html", status=status, error=TEXTS[known], detail=detail)
    return make_response(page, status)


def show_refusal(refusal: Exception) -> Response:
    """Answer a use case that refused."""
    return error_page(STATUS[type(refusal)], getattr(refusal, "message", ""))


def show_http_error(error: HTTPException) -> Response:
    """Answer what the server itself refuses; redirects pass."""
    status = error.code or HTTPStatus.INTERNAL_SERVER_ERROR
    response = error_page(status) if status >= HTTPStatus.BAD_REQUEST else error.get_response(request.environ)
    if status == HTTPStatus.METHOD_NOT_ALLOWED:
        response.headers["Allow"] = ", ".join(sorted(getattr(error, "valid_methods", None) or ()))
    return make_response(response)


def show_unaccepted_form(_error: CSRFError) -> Response:
    """Answer a form without our token: nothing was done, and what was typed can be sent again from here."""
    fields = [(name, value) for name, value in request.form.items(multi=True) if name not in SECRET_FIELDS]
    fits = len(fields) <= MOST_FIELDS and all(len(value) <= LONGEST_FIELD for _, value in fields)
    page = render_template(
        "unaccepted_form.html",
        ended=visit_has_ended(),
        fields=fields if fits else [],
        action=request.path,
    )
    return make_response(page, HTTPStatus.BAD_REQUEST)


def show_too_large(_error: RequestEntityTooLarge) -> Response:
    """Answer a request that is too large, after reading it: a browser shows no answer to what it could not send."""
    left = DRAINED_BYTES
    while left > 0 and (chunk := request.environ["wsgi.input"].read(min(CHUNK_BYTES, left))):
        left -= len(chunk)
    return error_page(HTTPStatus.REQUEST_ENTITY_TOO_LARGE)


def show_failure(_error: InternalServerError) -> Response:
    """Answer a failure of ours; the database may be what failed, so nobody is looked up."""
    g.setdefault("actor", visits.guest(wished_language(), now()))
    return error_page(HTTPStatus.INTERNAL_SERVER_ERROR)
