"""Making a school on a page, where the installation lets anybody do so."""

from flask import render_template, request
from flask.typing import ResponseReturnValue

from app.packs.spec import LANGUAGES
from app.services.errors import Invalid, NotFound, TooOften
from app.services.schools import NewSchool, create_school
from app.services.throttle import address_subject, count_try
from app.web.access import EVERYBODY, allow
from app.web.account.blueprint import account
from app.web.account.browser import caller
from app.web.current import backend, language, now, uow
from app.web.errors import STATUS


@account.get("/new-school")
@allow(*EVERYBODY)
def show_new_school() -> ResponseReturnValue:
    """Ask what the school is called and who runs it."""
    _only_where_open()
    return _page()


@account.post("/new-school")
@allow(*EVERYBODY)
def make_school() -> ResponseReturnValue:
    """Make the school and show, this once, how its administrator comes in."""
    _only_where_open()
    given = [request.form.get(name, "") for name in ("code", "name", "language", "time_zone", "administrator")]
    spoken = next((each for each in LANGUAGES if each == given[2]), language())
    wanted = NewSchool(given[0], given[1], spoken, given[3], given[4])
    try:
        count_try(uow(), (address_subject(caller().address),), language(), now())
        slip = create_school(uow(), wanted, language(), now())
    except (Invalid, TooOften) as refusal:
        return _page(refusal), STATUS[type(refusal)]
    return render_template("instructor/show_slips.html", slips=(slip,))


def _only_where_open() -> None:
    if not backend().open_schools:
        raise NotFound("schools are made from the shell")


def _page(refusal: Invalid | TooOften | None = None) -> str:
    return render_template("account/new_school.html", refusal=refusal, given=request.form)
