"""How the log says the details of an entry: in words, without what is empty."""

from collections.abc import Iterator, Mapping
from datetime import datetime

from flask_babel import gettext
from flask_babel import lazy_gettext as _

from app.web.current import language, library
from app.web.languages import moment

# What these are done to is a kind of question, noted by its id.
OF_FAMILIES = frozenset(
    {
        "report-settled",
        "reports-exported",
        "question-withdrawn",
        "question-brought-back",
        "answers-regraded",
        "answers-set-aside",
        "answers-counted-again",
    }
)

# A detail that no name is known of keeps its own.
NAMES: Mapping[str, object] = {
    "school_class": _("class"),
    "source": _("from"),
    "goal": _("to"),
    "before": _("before"),
    "after": _("now"),
    "days": _("days"),
    "count": _("how many"),
    "students": _("students"),
    "people": _("people touched"),
    "answers": _("answers looked at"),
    "right now": _("right now"),
    "wrong now": _("wrong now"),
    "lost": _("could not be marked again"),
    "classes": _("classes"),
    "reports": _("reports"),
    "role": _("role"),
    "kind": _("kind"),
    "corrects": _("corrects an earlier one"),
    "due_at": _("due"),
    "until": _("until"),
    "overridden": _("in spite of"),
    "reason": _("reason"),
    "answer": _("answer"),
    "version": _("version"),
    "school": _("school"),
    "name": _("name"),
    "language": _("language"),
    "time_zone": _("time zone"),
    "conventions": _("place and rules of the school"),
    "retention": _("for how long records are kept"),
    "bars": _("what is asked before a recommendation"),
    "left-people": _("people who have left"),
    "notes": _("notes"),
}
VALUES: Mapping[str, object] = {
    "taught": _("taught"),
    "reviewed": _("reviewed"),
    "note": _("note"),
    "student": _("student"),
    "instructor": _("instructor"),
    "school": _("school"),
    "sections": _("sections"),
    "rehearsals": _("rehearsals"),
    "misconceptions": _("misconceptions"),
}
MOMENTS = frozenset({"due_at", "until"})
NAMED_ONLY = frozenset({"conventions", "retention", "bars"})  # many values: that they were changed is enough
CODES = frozenset({"kind", "role", "before", "after", "overridden"})  # all else is somebody's own words


def subject(action: str, named: str) -> str:
    """Return to whom or what something was done; a kind of question by its title."""
    family = library().families.get(named) if action in OF_FAMILIES else None
    return family.title.of(language()) if family else named


def more(details: Mapping[str, object]) -> Iterator[str]:
    """Yield each detail as words; what is not set says nothing, and what is simply so needs no value."""
    for name, value in details.items():
        if value is None or value is False or value == "":
            continue
        words, alone = str(NAMES.get(name, name)), value is True or name in NAMED_ONLY
        yield words if alone else gettext("%(name)s: %(value)s", name=words, value=_said(name, value))


def _said(name: str, value: object) -> str:
    if name in MOMENTS:
        return moment(datetime.fromisoformat(str(value)))
    if name not in CODES:
        return ", ".join(map(str, value)) if isinstance(value, list) else str(value)
    parts = str(value).split(", ") if name == "overridden" else [str(value)]
    return ", ".join(str(VALUES.get(part, part)) for part in parts)
