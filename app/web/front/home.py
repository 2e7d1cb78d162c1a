"""The home place and the house rules, which decide the numbers of the drills that start from then on."""

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from werkzeug.datastructures import MultiDict

from app.services import visits
from app.services.errors import Invalid
from app.services.homes import FIRST_DAY, LAST_DAY
from app.services.places import list_places
from app.web.access import EVERYBODY, allow
from app.web.current import act_as, actor, language, now, uow
from app.web.errors import STATUS
from app.web.forms import mark_refused
from app.web.front.blueprint import front
from app.web.home_form import TYPED, HomeForm, as_fields

CHOSEN = ("latitude_deg", "longitude_deg")


@front.get("/home")
@allow(*EVERYBODY)
def show_home() -> ResponseReturnValue:
    """Show the home place with its field, and the form to change it, filled in with a place chosen on a map."""
    fields = as_fields(actor().conventions, tuple(list_places(language())))
    chosen = {name: request.args[name] for name in CHOSEN if name in request.args}
    if not chosen:
        return _page(HomeForm(formdata=None, data=fields))
    return _page(HomeForm(formdata=MultiDict({**fields, "where": TYPED, **chosen})))


@front.post("/home")
@allow(*EVERYBODY)
def set_home() -> ResponseReturnValue:
    """Keep another home place."""
    form = HomeForm()
    if form.validate():
        try:
            act_as(visits.set_home(uow(), actor(), form.wish(), now()))
        except Invalid as refusal:
            mark_refused(form, refusal)
        else:
            return redirect(url_for("front.show_home", kept=1), 303)
    return _page(form), STATUS[Invalid]


def _page(form: HomeForm) -> str:
    form.offer_places(tuple(list_places(language())))
    return render_template(
        "front/show_home.html",
        form=form,
        home=actor().conventions,
        kept="kept" in request.args,
        first_day=FIRST_DAY,
        last_day=LAST_DAY,
    )
