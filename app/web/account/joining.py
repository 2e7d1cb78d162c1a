"""Making an account: by a class's code, or by an invitation."""

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import invitations, joining
from app.services.actor import Role
from app.services.errors import Conflict, Invalid, TooOften
from app.services.invitations import Newcomers, Welcome
from app.services.joining import JoinClaim
from app.web import current
from app.web.access import EVERYBODY, allow
from app.web.account.blueprint import account
from app.web.account.browser import caller, go_in, practised
from app.web.current import actor, backend, language, now, uow
from app.web.errors import STATUS

Refusal = Invalid | TooOften


@account.get("/join")
@allow(*EVERYBODY)
def show_join() -> ResponseReturnValue:
    """Ask for the class's code, and for a name and a password of who has no account yet."""
    return _join_page()


@account.post("/join")
@allow(*EVERYBODY)
def join() -> ResponseReturnValue:
    """Join a class: with a new account, or as the student who is signed in."""
    claim = JoinClaim(request.form.get("school", ""), request.form.get("join_code", ""))
    try:
        if actor().role is Role.STUDENT:
            joining.join_as(uow(), actor(), claim, caller(), now())
            return redirect(url_for("account.show_account"), 303)
        made = joining.join_new(uow(), backend().entrance.hasher, claim, _newcomer(), caller(), now())
    except (Invalid, TooOften) as refusal:
        return _join_page(refusal), STATUS[type(refusal)]
    return _welcome(made)


@account.get("/invited/<token>")
@allow(*EVERYBODY)
def show_invitation(token: str) -> ResponseReturnValue:
    """Ask somebody who was invited for a name and a password."""
    return _invited_page(token)


@account.post("/invited/<token>")
@allow(*EVERYBODY)
def accept_invitation(token: str) -> ResponseReturnValue:
    """Make the account of an invitation."""
    try:
        made = invitations.accept(uow(), backend().entrance.hasher, token, _newcomer(), caller(), now())
    except (Invalid, Conflict) as refusal:
        return _invited_page(token, refusal)
    return _welcome(made)


def _newcomer() -> Newcomers:
    return Newcomers(request.form.get("name", ""), request.form.get("password", ""))


def _welcome(made: Welcome) -> ResponseReturnValue:
    return go_in(made.token, made.school_code, url_for("account.show_account", welcome=1))


def _join_page(refusal: Refusal | None = None) -> str:
    given = request.form or request.args
    return render_template(
        "account/join.html",
        refusal=refusal,
        given=given,
        school=given.get("school") or current.remembered_school(),
        practised=practised(),
    )


def _invited_page(token: str, refusal: Invalid | Conflict | None = None) -> ResponseReturnValue:
    try:
        invitation, school = invitations.read_invitation(uow(), token, language(), now())
    except Conflict as closed:
        return render_template("account/no_invitation.html", reason=closed.message), STATUS[Conflict]
    page = render_template(
        "account/invited.html", token=token, invitation=invitation, school=school, refusal=refusal, given=request.form
    )
    return page, STATUS[type(refusal)] if refusal else 200
