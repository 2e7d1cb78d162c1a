"""The list of sets, and putting together a new one."""

from dataclasses import replace
from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from app.services import topic_sets
from app.services.actor import Actor
from app.services.assignments import list_running
from app.services.errors import Invalid
from app.services.homes import conventions_for
from app.services.places import list_places
from app.services.set_choices import families_by_topic, write_list
from app.services.set_wishes import SetWish
from app.services.topic_sets import get_set, list_sets, settings_of
from app.web.access import allow
from app.web.current import actor, backend, language, library, now, uow
from app.web.errors import STATUS
from app.web.forms import mark_refused
from app.web.sets.blueprint import TEACHING, sets
from app.web.sets.set_forms import SetForm, as_fields, set_form

# What stays the school's own where a set is at home elsewhere.
HOUSE_RULES = frozenset(
    {"rollout_rule", "allowance_deg", "rate_rule", "card_limit_deg", "check_limit_deg", "hi_limit_deg", "feet_per_hpa"}
)


@sets.get("/topic-sets")
@allow(*TEACHING)
def show_sets() -> ResponseReturnValue:
    """List the school's sets."""
    archived = "archived" in request.args
    listed = list_sets(uow(), actor(), archived=archived)
    running = [] if archived else list_running(uow(), actor())
    return render_template("sets/show_sets.html", sets=listed, archived=archived, running=running)


@sets.get("/topic-sets/new")
@allow(*TEACHING)
def show_new() -> ResponseReturnValue:
    """Show the form: empty, for a misconception, or filled in like another set."""
    like = request.args.get("like", type=UUID)
    if like is not None:
        view = get_set(uow(), actor(), library(), like)
        typed = {
            "place_id": _listed_place(view.row.conventions["place"]),
            "fixed": write_list(library(), view.wish.fixed, language()),
        }
        return _page(_form(as_fields(view.wish, settings_of(view.row)) | typed))
    topic = request.args.get("topic")
    wish = SetWish(topics=(topic,) if topic else (), misconception=request.args.get("misconception", ""))
    return _page(_form(as_fields(wish)))


@sets.post("/topic-sets")
@allow(*TEACHING)
def make_set() -> ResponseReturnValue:
    """Choose the questions and show them; what cannot be accepted is said all at once, and nothing typed is lost."""
    form = _form()
    readable, wanted = form.validate(), (form.wish(library()), form.settings(_title_of(form)))
    try:
        if readable:
            made = topic_sets.make_set(uow(), _at_home(form), library(), wanted, backend().draw_seed(), now())
            return redirect(url_for("sets.show_set", set_id=made), 303)
        topic_sets.check_new_set(actor(), library(), wanted)
    except Invalid as refusal:
        mark_refused(form, refusal)
    return _page(form), STATUS[Invalid]


def _form(known: dict[str, object] | None = None) -> SetForm:
    return set_form(library(), language(), actor().conventions.place, known)


def _page(form: SetForm) -> str:
    return render_template("sets/new_set.html", form=form, topics=families_by_topic(library(), language()))


def _listed_place(name: str) -> str:
    """Return the listed place of this name; nothing for the actor's own home."""
    listed = {place.name: place.id for place in list_places(language())}
    return "" if name == actor().conventions.place else listed.get(name, "")


def _at_home(form: SetForm) -> Actor:
    """Return the actor at the home place that the form names, under the same house rules."""
    wish = form.home(now().date())
    if wish is None:
        return actor()
    moved = conventions_for(wish, language())
    rules = actor().conventions
    place = {name: getattr(moved, name) for name in moved.__slots__ if name not in HOUSE_RULES}
    return replace(actor(), conventions=replace(rules, **place))


def _title_of(form: SetForm) -> str:
    """Return a title for a set that was given none: its topics."""
    titles = {group.id: group.title for group in families_by_topic(library(), language())}
    named = [titles[topic] for topic in form.topics.data or () if topic in titles]
    return ", ".join(named)[: topic_sets.LONGEST_TITLE] or gettext("Mixed questions")
