"""Printed sheets and their keys."""

from uuid import UUID

from flask import render_template, request
from flask.typing import ResponseReturnValue

from app.packs.spec import LANGUAGES, Language
from app.services.errors import NotFound
from app.services.sheets import Sheet, SheetWish, get_sheet
from app.web.access import allow
from app.web.current import actor, language, library, speak, uow
from app.web.sets.blueprint import TEACHING, sets


@sets.get("/topic-sets/<uuid:set_id>/sheet")
@allow(*TEACHING)
def show_sheet(set_id: UUID) -> ResponseReturnValue:
    """Show the sheets to be printed, each version from a new page."""
    wish = _wish()
    return render_template("sets/print_sheet.html", sheet=_sheet(set_id, wish), wish=wish)


@sets.get("/topic-sets/<uuid:set_id>/key")
@allow(*TEACHING)
def show_key(set_id: UUID) -> ResponseReturnValue:
    """Show the keys of the versions with the working, each from a new page."""
    wish = _wish()
    return render_template("sets/print_key.html", sheet=_sheet(set_id, wish), wish=wish)


def _sheet(set_id: UUID, wish: SheetWish) -> Sheet:
    sheet = get_sheet(uow(), actor(), library(), set_id, wish)
    speak(sheet.language)
    return sheet


def _wish() -> SheetWish:
    wanted = request.args
    text = wanted.get("versions", "1")
    versions = int(text) if text.isascii() and text.isdigit() and len(text) < 3 else 0
    return SheetWish(versions, wanted.get("differ", "numbers"), _language())


def _language() -> Language:
    text = request.args.get("language") or language()
    for each in LANGUAGES:
        if each == text:
            return each
    raise NotFound(text)
