"""What the header leads to, for each role; an area that adds a page for a role adds its line here."""

from dataclasses import dataclass

from flask import Flask, request, url_for
from flask_babel import lazy_gettext as _

from app.services.actor import Role
from app.web.current import actor


@dataclass(frozen=True, slots=True)
class Way:
    """A link of the header: where it leads, what it says, which other pages or whole blueprint belong to it."""

    endpoint: str
    words: object
    area: str = ""
    pages: tuple[str, ...] = ()


EVERYBODYS = (Way("student.show_topics", _("Questions"), "student"), Way("bench.show_bench", _("Bench"), "bench"))
STUDENTS = (
    "instructor.list_people",
    "instructor.show_person",
    "instructor.show_student",
    "instructor.print_training_record",
)
REPORTS = ("school.show_reports", "school.show_report", "school.settle_report")
OWN = ("own.list_questions", "own.show_question", "own.show_new", "own.show_change", "own.write", "own.change")
PROFILES = ("school.list_exam_profiles", "school.show_exam_profile", "school.change_exam_profile")
WAYS: dict[Role, tuple[Way, ...]] = {
    Role.VISITOR: (Way("account.show_sign_in", _("Sign in")),),
    Role.STUDENT: (
        Way(
            "student.show_today",
            _("Today"),
            pages=(
                "student.show_readiness",
                "student.list_rehearsals",
                "student.show_rehearsal",
                "student.ask_in_rehearsal",
                "student.answer_in_rehearsal",
            ),
        ),
        Way("student.show_sets", _("Sets")),
        Way("student.show_record", _("My record")),
    ),
    Role.INSTRUCTOR: (
        Way("instructor.list_classes", _("Classes"), pages=STUDENTS),
        Way("sets.show_sets", _("Topic sets"), "sets", pages=OWN),
        Way("school.show_quality", _("Quality"), pages=REPORTS),
    ),
    Role.SCHOOL: (
        Way("instructor.list_classes", _("Classes")),
        Way("instructor.list_people", _("People"), pages=("school.show_invitations", "school.invite")),
        Way("sets.show_sets", _("Topic sets"), "sets", pages=OWN),
        Way("school.show_quality", _("Quality"), pages=REPORTS),
        Way("school.show_cohorts", _("Side by side")),
        Way("school.show_settings", _("School"), pages=PROFILES),
        Way("school.show_audit", _("Log")),
    ),
}
# Where somebody goes who has signed in and asked for no other page.
FIRST_PAGES: dict[Role, str] = {
    Role.VISITOR: "front.show_start",
    Role.STUDENT: "student.show_today",
    Role.INSTRUCTOR: "instructor.list_classes",
    Role.SCHOOL: "instructor.list_classes",
}


def add_navigation(app: Flask) -> None:
    """Give templates the header's links."""
    app.jinja_env.globals.update(ways=ways, is_here=is_here)


def ways() -> tuple[Way, ...]:
    """Return the header's links for whoever reads the page."""
    return EVERYBODYS + WAYS[actor().role]


def is_here(way: Way) -> str:
    """Return what aria-current says of a link: the page itself, a page below it or of its area, or nothing.

    Of an address that leads nowhere, nothing: what says so is one page for all such addresses.
    """
    if request.endpoint is None:
        return ""
    if request.endpoint == way.endpoint:
        return "page"
    of_area = way.area and request.blueprint == way.area and not any(map(_holds, ways()))
    return "true" if of_area or _holds(way) else ""


def _holds(way: Way) -> bool:
    named = request.endpoint in (way.endpoint, *way.pages)
    return named or request.path.startswith(f"{url_for(way.endpoint)}/")


def first_page() -> str:
    """Return the address of the first page for whoever acts."""
    return url_for(FIRST_PAGES[actor().role])
