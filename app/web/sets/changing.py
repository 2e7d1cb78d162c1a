"""One set: its questions with key and working, swapping one, its settings, locking, copying, archiving."""

from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from app.packs.spec import Language
from app.services import topic_sets
from app.services.assignments import list_assignments
from app.services.errors import Conflict, Invalid
from app.services.keyed_items import keyed_item
from app.services.rechecks import find_recheck
from app.services.set_choices import misconception_words
from app.services.topic_sets import get_set, settings_of
from app.web.access import allow
from app.web.current import actor, backend, language, library, now, uow
from app.web.errors import STATUS
from app.web.forms import mark_refused
from app.web.page_text import GRADE_WORDS
from app.web.sets.blueprint import TEACHING, sets
from app.web.sets.set_forms import FORM_WORDS, NUMBER_WORDS, REVEAL_WORDS, SettingsForm, as_fields


@sets.get("/topic-sets/<uuid:set_id>")
@allow(*TEACHING)
def show_set(set_id: UUID) -> ResponseReturnValue:
    """Show a set as its instructors see it."""
    view = get_set(uow(), actor(), library(), set_id)
    spoken: Language = "fr" if (view.row.language or language()) == "fr" else "en"
    places = [(row, item and keyed_item(library(), item, row.position, spoken)) for row, item in view.places]
    return render_template(
        "sets/show_set.html",
        view=view,
        places=places,
        spoken=spoken,
        recheck=find_recheck(uow(), actor(), library(), set_id),
        assigned=list_assignments(uow(), actor(), set_id),
        mistake=misconception_words(library(), view.wish.misconception, language()),
        words={**FORM_WORDS, **GRADE_WORDS, **NUMBER_WORDS, **REVEAL_WORDS},
    )


@sets.post("/topic-sets/<uuid:set_id>/items/<int(min=1):position>/swap")
@allow(*TEACHING)
def swap_item(set_id: UUID, position: int) -> ResponseReturnValue:
    """Put another question into one place."""
    place = (set_id, _version(), position)
    topic_sets.swap_item(uow(), actor(), library(), place, backend().draw_seed(), now())
    return redirect(url_for("sets.show_set", set_id=set_id, _anchor=f"item-{position}"), 303)


@sets.get("/topic-sets/<uuid:set_id>/settings")
@allow(*TEACHING)
def show_settings(set_id: UUID) -> ResponseReturnValue:
    """Show how a set is sat."""
    view = get_set(uow(), actor(), library(), set_id)
    fields = as_fields(view.wish, settings_of(view.row))
    return _settings_page(set_id, SettingsForm(formdata=None, data=fields), view.row.version)


@sets.post("/topic-sets/<uuid:set_id>/settings")
@allow(*TEACHING)
def change_settings(set_id: UUID) -> ResponseReturnValue:
    """Keep other settings; what was typed stays in the form where somebody was quicker."""
    form, status = SettingsForm(), STATUS[Invalid]
    readable = form.validate()
    try:
        if readable:
            topic_sets.change_settings(uow(), actor(), set_id, _version(), form.settings(), now())
            return redirect(url_for("sets.show_set", set_id=set_id), 303)
        topic_sets.check_settings(actor(), form.settings())
    except Invalid as refusal:
        mark_refused(form, refusal)
    except Conflict as refusal:
        form.title.errors, status = [refusal.message], STATUS[Conflict]
    return _settings_page(set_id, form, _version()), status


@sets.post("/topic-sets/<uuid:set_id>/lock")
@allow(*TEACHING)
def lock_set(set_id: UUID) -> ResponseReturnValue:
    """Let the questions stay as they are."""
    topic_sets.lock_set(uow(), actor(), set_id, _version(), now())
    return redirect(url_for("sets.show_set", set_id=set_id), 303)


@sets.post("/topic-sets/<uuid:set_id>/copy")
@allow(*TEACHING)
def copy_set(set_id: UUID) -> ResponseReturnValue:
    """Make a copy with the same questions."""
    return redirect(url_for("sets.show_set", set_id=topic_sets.copy_set(uow(), actor(), set_id, now())), 303)


@sets.post("/topic-sets/<uuid:set_id>/archive")
@allow(*TEACHING)
def archive_set(set_id: UUID) -> ResponseReturnValue:
    """Take a set off the list, or put it back."""
    topic_sets.archive_set(uow(), actor(), set_id, _version(), None if "back" in request.form else now())
    return redirect(url_for("sets.show_sets"), 303)


def _settings_page(set_id: UUID, form: SettingsForm, version: int) -> str:
    view = get_set(uow(), actor(), library(), set_id)
    return render_template("sets/change_settings.html", form=form, view=view, version=version)


def _version() -> int:
    """Return the version of the set that the form was made from."""
    text = request.form.get("version", "")
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise Conflict(gettext("The form does not say which version of the set it is of. Open the set again."))
    return int(text)
