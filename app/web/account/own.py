"""The account page: name, password, and the browsers one is signed in in."""

from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import own_account
from app.services.errors import Invalid, TooOften
from app.services.own_account import OwnWish, PasswordWish
from app.web import current
from app.web.access import allow
from app.web.account.blueprint import MEMBERS, account
from app.web.account.browser import caller
from app.web.account.devices import device_words
from app.web.current import actor, backend, now, uow
from app.web.errors import STATUS


@account.get("/account")
@allow(*MEMBERS)
def show_account() -> ResponseReturnValue:
    """Show one's own account."""
    return _page()


@account.post("/account")
@allow(*MEMBERS)
def change_account() -> ResponseReturnValue:
    """Correct one's own name and e-mail address."""
    form = request.form
    wish = OwnWish(form.get("name", ""), form.get("email", ""), form.get("own_password", ""))
    try:
        own_account.change_own(uow(), backend().entrance.hasher, actor(), wish, now())
    except (Invalid, TooOften) as refusal:
        return _page(refusal), STATUS[type(refusal)]
    return redirect(url_for("account.show_account", kept=1), 303)


@account.post("/account/password")
@allow(*MEMBERS)
def change_password() -> ResponseReturnValue:
    """Keep another password; this browser goes on with a new token, all others are signed out."""
    wish = PasswordWish(request.form.get("present", ""), request.form.get("password", ""))
    school = current.remembered_school()
    try:
        token = own_account.change_password(uow(), backend().entrance.hasher, actor(), wish, caller(), now())
    except (Invalid, TooOften) as refusal:
        return _page(refusal), STATUS[type(refusal)]
    current.sign_in(token)
    current.remember_school(school)
    return redirect(url_for("account.show_account", kept=1), 303)


@account.post("/account/sign-ins/<uuid:sign_in_id>/end")
@allow(*MEMBERS)
def end_sign_in(sign_in_id: UUID) -> ResponseReturnValue:
    """Sign another browser of one's own out."""
    own_account.sign_out_one(uow(), actor(), sign_in_id, now())
    return redirect(url_for("account.show_account"), 303)


@account.post("/account/sign-ins/end")
@allow(*MEMBERS)
def end_all_sign_ins() -> ResponseReturnValue:
    """Sign all browsers of one's own out."""
    own_account.sign_out_everywhere(uow(), actor(), now())
    current.sign_out()
    return redirect(url_for("account.show_sign_in"), 303)


def _page(refusal: Invalid | TooOften | None = None) -> str:
    view = own_account.get_account(uow(), actor(), current.sign_in_token(), now())
    notices = {name: name in request.args for name in ("kept", "welcome")}
    told = {"view": view, "refusal": refusal, "given": request.form, "device_words": device_words}
    return render_template("account/show_account.html", **told, **notices)
