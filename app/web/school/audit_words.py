"""How the log says the details of an entry: in words, without what is empty."""

from collections.abc import Iterator, Mapping
from datetime import datetime

from flask_babel import gettext
from flask_babel import lazy_gettext as _

from app.web.languages import moment

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
CODES = frozenset({"kind", "role", "before", "after", "overridden"})  # all else is somebody's own words


def more(details: Mapping[str, object]) -> Iterator[str]:
    """Yield each detail as words; what is not set says nothing, and what is simply so needs no value."""
    for name, value in details.items():
        if value is None or value is False or value == "":
            continue
        words = str(NAMES.get(name, name))
        yield words if value is True else gettext("%(name)s: %(value)s", name=words, value=_said(name, value))


def _said(name: str, value: object) -> str:
    if name in MOMENTS:
        return moment(datetime.fromisoformat(str(value)))
    if name not in CODES:
        return ", ".join(map(str, value)) if isinstance(value, list) else str(value)
    parts = str(value).split(", ") if name == "overridden" else [str(value)]
    return ", ".join(str(VALUES.get(part, part)) for part in parts)
