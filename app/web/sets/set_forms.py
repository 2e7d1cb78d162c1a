"""The forms of a topic set: what it holds, and how it is sat. What is accepted is for the use cases to say."""

from dataclasses import asdict
from datetime import date
from typing import Any

from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from wtforms import SelectChoice, SelectField, SelectMultipleField, StringField, TextAreaField

from app.packs.library import Library
from app.packs.spec import Language
from app.services.homes import HomeWish
from app.services.places import list_places
from app.services.set_choices import (
    families_by_topic,
    lines_by_document,
    misconception_words,
    misconceptions_by_topic,
    read_list,
)
from app.services.set_wishes import COUNT, FORMS, GRADES, SetWish
from app.services.topic_sets import SetSettings
from app.web.forms import WholeNumberField
from app.web.page_text import GRADE_WORDS

ANY = ""
FORM_WORDS = {
    "choice": lazy_gettext("choose one"),
    "typed": lazy_gettext("type a value"),
    "several": lazy_gettext("tick several"),
    "order": lazy_gettext("put in order"),
    "match": lazy_gettext("match"),
    "groups": lazy_gettext("sort into groups"),
    "pick": lazy_gettext("pick on a drawing"),
    "boxes": lazy_gettext("fill in boxes"),
}
REVEAL_WORDS = {
    "at-once": lazy_gettext("after each question"),
    "at-end": lazy_gettext("once the student has finished"),
    "after-due": lazy_gettext("once it is due for everybody"),
}
NUMBER_WORDS = {
    "same": lazy_gettext("the same questions for everybody"),
    "own": lazy_gettext("other numbers for each student"),
}
SPOKEN = {ANY: lazy_gettext("each student’s own"), "en": "English", "fr": "Français"}


def _choices(words: dict[str, Any]) -> list[SelectChoice]:
    return [SelectChoice(value, text) for value, text in words.items()]


class SettingsForm(FlaskForm):  # type: ignore[misc] # the library has no types
    """How a set is sat."""

    title = StringField(lazy_gettext("Title"))
    note = TextAreaField(lazy_gettext("Note for the students"))
    reveal = SelectField(
        lazy_gettext("Answers are shown"), choices=_choices(REVEAL_WORDS), default="at-end", validate_choice=False
    )
    numbers = SelectField(
        lazy_gettext("Numbers"), choices=_choices(NUMBER_WORDS), default="same", validate_choice=False
    )
    minutes = WholeNumberField(lazy_gettext("Time limit, minutes"))
    pass_percent = WholeNumberField(lazy_gettext("Pass mark, per cent"), default=70)
    attempts_allowed = WholeNumberField(lazy_gettext("Attempts allowed"), default=1)
    language = SelectField(
        lazy_gettext("Language of the questions"), choices=_choices(SPOKEN), default=ANY, validate_choice=False
    )

    def settings(self, title: str = "") -> SetSettings:
        """Return the settings that were filled in, with this title where there is none."""
        return SetSettings(
            title=(self.title.data or "").strip() or title,
            note=self.note.data or "",
            language=self.language.data or None,
            numbers=self.numbers.data or "same",
            reveal=self.reveal.data or "at-end",
            minutes=self.minutes.data,
            pass_percent=self.pass_percent.data,
            attempts_allowed=1 if self.attempts_allowed.data is None else self.attempts_allowed.data,
        )


class SetForm(SettingsForm):
    """What a new set holds as well."""

    topics = SelectMultipleField(lazy_gettext("Topics"), validate_choice=False)
    families = SelectMultipleField(lazy_gettext("Kinds of questions"), validate_choice=False)
    syllabus = SelectField(lazy_gettext("A line of a syllabus"), validate_choice=False, default=ANY)
    misconception = SelectField(lazy_gettext("Only where this mistake can be made"), validate_choice=False, default=ANY)
    fixed = TextAreaField(lazy_gettext("A fixed list, one kind a line"))
    count = WholeNumberField(lazy_gettext("How many questions"), default=COUNT)
    grades = SelectMultipleField(
        lazy_gettext("Difficulty"),
        choices=_choices({each: GRADE_WORDS[each] for each in GRADES}),
        validate_choice=False,
    )
    forms = SelectMultipleField(
        lazy_gettext("Answers by"), choices=_choices({each: FORM_WORDS[each] for each in FORMS}), validate_choice=False
    )
    place_id = SelectField(lazy_gettext("Home place"), validate_choice=False, default=ANY)

    def offer(self, library: Library, language: Language, home: str) -> None:
        """List what the packs and places hold; `home` is the place that holds unless another is chosen."""
        any_line = SelectChoice(ANY, lazy_gettext("any"))
        self.syllabus.choices = [any_line, *_grouped(lines_by_document(library, language))]
        self.misconception.choices = [any_line, *_grouped(misconceptions_by_topic(library, language))]
        chosen = self.misconception.data
        if chosen and chosen not in {each.value for each in self.misconception.choices}:  # as another family names it
            self.misconception.choices.append(SelectChoice(chosen, misconception_words(library, chosen, language)))
        self.place_id.choices = [
            SelectChoice(ANY, home),
            *(SelectChoice(each.id, f"{each.name}, {each.near}", optgroup=each.area) for each in list_places(language)),
        ]

    def wish(self, library: Library) -> SetWish:
        """Return what was asked for."""
        return SetWish(
            topics=tuple(self.topics.data or ()),
            families=tuple(self.families.data or ()),
            syllabus=self.syllabus.data or "",
            misconception=self.misconception.data or "",
            fixed=read_list(library, self.fixed.data or ""),
            count=0 if self.count.data is None else self.count.data,
            grades=tuple(self.grades.data or ()),
            forms=tuple(self.forms.data or ()),
        )

    def home(self, today: date) -> HomeWish | None:
        """Return the home place that was chosen in place of the usual one."""
        return HomeWish(today, place_id=self.place_id.data) if self.place_id.data else None


def set_form(library: Library, language: Language, home: str, known: dict[str, Any] | None = None) -> SetForm:
    """Return the form: as it was sent, or filled in with what is known."""
    form = SetForm() if known is None else SetForm(formdata=None, data=known)
    form.offer(library, language, home)
    return form


def as_fields(wish: SetWish, settings: SetSettings | None = None) -> dict[str, Any]:
    """Return the fields that would give this wish and these settings."""
    return asdict(wish) | ({**asdict(settings), "language": settings.language or ANY} if settings else {})


def _grouped(groups: Any) -> list[SelectChoice]:
    return [SelectChoice(each.value, each.words, optgroup=group.title) for group in groups for each in group.offers]


__all__ = ["SetForm", "SettingsForm", "as_fields", "families_by_topic", "set_form"]
