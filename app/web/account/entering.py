"""Signing in by password or one-time code, and signing out."""

from flask import make_response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services.errors import Invalid, TooOften
from app.web import current
from app.web.access import EVERYBODY, allow
from app.web.account.blueprint import MEMBERS, account
from app.web.account.browser import caller, go_in, practised
from app.web.account.forms import ClaimForm, FirstSignInForm, SignInForm
from app.web.addresses import own_address
from app.web.current import backend, now, uow
from app.web.errors import STATUS

SCHOOL = "school"


@account.get("/sign-in")
@allow(*EVERYBODY)
def show_sign_in() -> ResponseReturnValue:
    """Show the form; the address or an earlier sign-in may name the school."""
    return _page(SignInForm(formdata=None, data={"school": _known_school()}))


@account.post("/sign-in")
@allow(*EVERYBODY)
def sign_in() -> ResponseReturnValue:
    """Let somebody in by their password."""
    form = SignInForm()
    try:
        token = backend().entrance.enter(uow(), form.claim(), form.password.data or "", caller(), now())
    except (Invalid, TooOften) as refusal:
        return _refused(form, refusal)
    return _let_in(form, token)


@account.get("/first-sign-in")
@allow(*EVERYBODY)
def show_first_sign_in() -> ResponseReturnValue:
    """Show the form for whoever has a one-time code."""
    known = {"school": _known_school(), "login": request.args.get("login", "")}
    return _page(FirstSignInForm(formdata=None, data=known))


@account.post("/first-sign-in")
@allow(*EVERYBODY)
def first_sign_in() -> ResponseReturnValue:
    """Let somebody in by their one-time code, with the password they chose."""
    form = FirstSignInForm()
    given = (form.code.data or "", form.password.data or "")
    try:
        token = backend().entrance.enter_by_code(uow(), form.claim(), *given, caller(), now())
    except (Invalid, TooOften) as refusal:
        return _refused(form, refusal)
    return _let_in(form, token)


@account.post("/sign-out")
@allow(*MEMBERS)
def sign_out() -> ResponseReturnValue:
    """End this browser's sign-in."""
    current.sign_out()
    return redirect(url_for("front.show_start"), 303)


def _page(form: ClaimForm) -> str:
    template = "account/first_sign_in.html" if isinstance(form, FirstSignInForm) else "account/sign_in.html"
    return render_template(template, form=form, onward=_onward(), practised=practised())


def _refused(form: ClaimForm, refusal: Invalid | TooOften) -> ResponseReturnValue:
    field = refusal.field if isinstance(refusal, Invalid) else "password"
    form[field].errors = [refusal.message]
    response = make_response(_page(form), STATUS[type(refusal)])
    if isinstance(refusal, TooOften):
        response.headers["Retry-After"] = str(int(refusal.wait.total_seconds()))
    return response


def _let_in(form: ClaimForm, token: str) -> ResponseReturnValue:
    return go_in(token, form.school.data or "", _onward())


def _onward() -> str | None:
    return own_address(request.values.get("onward", ""))


def _known_school() -> str:
    return request.args.get(SCHOOL) or current.remembered_school()
