"""Inviting instructors and administrators, and taking invitations back."""

from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import invitations
from app.services.actor import Role
from app.services.errors import Invalid
from app.web.access import allow
from app.web.current import actor, now, uow
from app.web.errors import STATUS
from app.web.school.blueprint import school


@school.get("/school/invitations")
@allow(Role.SCHOOL)
def show_invitations() -> ResponseReturnValue:
    """List the invitations, with a form for another one."""
    return _page()


@school.post("/school/invitations")
@allow(Role.SCHOOL)
def invite() -> ResponseReturnValue:
    """Make an invitation and show its link, this once."""
    try:
        token = invitations.invite(uow(), actor(), request.form.get("role", ""), request.form.get("remark", ""), now())
    except Invalid as refusal:
        return _page(refusal), STATUS[Invalid]
    return _page(token=token)


@school.post("/school/invitations/<uuid:invitation_id>/take-back")
@allow(Role.SCHOOL)
def take_back(invitation_id: UUID) -> ResponseReturnValue:
    """Make an invitation's link worthless."""
    invitations.revoke(uow(), actor(), invitation_id, now())
    return redirect(url_for("school.show_invitations"), 303)


def _page(refusal: Invalid | None = None, token: str = "") -> str:
    listed = invitations.list_invitations(uow(), actor())
    return render_template(
        "school/show_invitations.html", listed=listed, refusal=refusal, token=token, given=request.form
    )
