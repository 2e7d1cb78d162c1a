"""The exam profiles a school rehearses under: built-in ones to copy, its own to change."""

from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import exam_profiles
from app.services.actor import Role
from app.services.drills import list_topics
from app.services.errors import Conflict, Invalid
from app.services.exam_profile_forms import MOST_SECTIONS, change_profile, get_own_profile
from app.web.access import allow
from app.web.current import actor, language, library, now, uow
from app.web.errors import STATUS
from app.web.school.blueprint import school

LONGEST_VERSION = 9


@school.get("/school/exam-profiles")
@allow(Role.SCHOOL)
def list_exam_profiles() -> ResponseReturnValue:
    """List the school's own profiles and those that come with the program."""
    profiles = exam_profiles.list_profiles(uow(), actor())
    return render_template("school/list_exam_profiles.html", profiles=profiles)


@school.post("/school/exam-profiles")
@allow(Role.SCHOOL)
def copy_exam_profile() -> ResponseReturnValue:
    """Make a copy to be changed."""
    profile_id = exam_profiles.copy_profile(uow(), actor(), request.form.get("profile", ""), now())
    return redirect(url_for("school.show_exam_profile", profile_id=profile_id), 303)


@school.get("/school/exam-profiles/<uuid:profile_id>")
@allow(Role.SCHOOL)
def show_exam_profile(profile_id: UUID) -> ResponseReturnValue:
    """Show one of the school's own profiles, to be changed."""
    return _page(profile_id)


@school.post("/school/exam-profiles/<uuid:profile_id>")
@allow(Role.SCHOOL)
def change_exam_profile(profile_id: UUID) -> ResponseReturnValue:
    """Keep a profile as it was filled in, or show what cannot be accepted."""
    typed = request.form.get("version", "")
    version = int(typed) if typed.isascii() and typed.isdigit() and len(typed) <= LONGEST_VERSION else 0
    try:
        change_profile(uow(), actor(), library(), (profile_id, version), dict(request.form.lists()), now())
    except (Invalid, Conflict) as refusal:
        return _page(profile_id, refusal), STATUS[type(refusal)]
    return redirect(url_for("school.list_exam_profiles"), 303)


@school.post("/school/exam-profiles/<uuid:profile_id>/remove")
@allow(Role.SCHOOL)
def remove_exam_profile(profile_id: UUID) -> ResponseReturnValue:
    """Take one of the school's own profiles away."""
    exam_profiles.remove_profile(uow(), actor(), profile_id, now())
    return redirect(url_for("school.list_exam_profiles"), 303)


def _page(profile_id: UUID, refusal: Invalid | Conflict | None = None) -> str:
    own = get_own_profile(uow(), actor(), profile_id)
    return render_template(
        "school/show_exam_profile.html",
        own=own,
        topics=list_topics(library(), language()),
        given=request.form if refusal else None,
        refusal=refusal,
        rows=min(len(own.profile.sections) + 1, MOST_SECTIONS),
    )
