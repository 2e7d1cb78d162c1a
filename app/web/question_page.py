"""What a page with a question needs, whichever area shows it: the item, where its answer goes, what became of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from flask import request
from flask_babel import lazy_gettext

from app.packs.spec import Form
from app.services.errors import Conflict, Invalid
from app.services.items import ItemView
from app.services.practice import Sent
from app.services.progress import Progress
from app.services.review import VerdictView
from app.web.current import actor, now
from app.web.timing import elapsed_ms, seal_time

# The template of each answer form: a pick is a choice that its drawing joins in, a match is a sort into places.
PARTIALS: dict[Form, str] = {
    "choice": "choice",
    "pick": "pick",
    "typed": "typed",
    "several": "several",
    "order": "order",
    "groups": "groups",
    "match": "groups",
    "boxes": "boxes",
}
# What a topic's questions are not: said under each of them. A drawn correction card says it itself.
CAUTIONS: dict[str, object] = {
    "datum": lazy_gettext(
        "Practice numbers: take variation from a current chart, deviation from your aircraft’s own card."
    ),
    "dynamic": lazy_gettext("Simplified model: the size differs by compass, latitude and handling."),
}
# What is said beside the verdict alone: before it, it might lean toward the key.
_DEFECT = lazy_gettext("In doubt the aircraft does not fly until a qualified person has checked it.")
_SWING = lazy_gettext("Knowledge only: a compass is swung and compensated by a qualified person.")
CAUTIONS_AFTER: dict[str, object] = {
    "altimeter-ground-check": _DEFECT,
    "compass-unserviceable": _DEFECT,
    "pitot-static-blockage": _DEFECT,
    "preflight-compass-check": _DEFECT,
    "suction-failure": _DEFECT,
    "swing-required-when": _SWING,
    "swing-residuals": _SWING,
    "why-deviation-changes": _SWING,
}
SENT = "sent"
AT_ONCE = "at-once"  # a script adds this field: it gives the verdict page, which comes at once, its own address
MOST_FIELDS = 60
Fields = Mapping[str, Sequence[str]]


@dataclass(frozen=True, slots=True)
class QuestionPage:
    """A question, open or with its verdict.

    hidden: fields that go with the answer. given: what was filled in already. refusal: why an answer was not counted.
    """

    item: ItemView
    action: str = ""
    hidden: Mapping[str, str] = field(default_factory=dict)
    progress: Progress | None = None
    given: Fields = field(default_factory=dict)
    refusal: Invalid | Conflict | None = None
    verdict: VerdictView | None = None

    @property
    def partial(self) -> str:
        """The template of the answer form."""
        return PARTIALS[self.item.worded.form]

    @property
    def caution(self) -> str:
        """What this question is not, if its topic needs saying so, or its kind once it is answered."""
        after = CAUTIONS_AFTER.get(self.item.family, "") if self.verdict else ""
        return str(after or CAUTIONS.get(self.item.topic, ""))

    @property
    def elsewhere(self) -> bool:
        """Whether the drill started at another home place than the one that holds now."""
        return self.item.place != actor().conventions.place

    def first(self, name: str) -> str:
        """Return what was filled in for a field."""
        return next(iter(self.given.get(name, ())), "")

    def refused(self, name: str) -> bool:
        """Whether this field is why the answer was not counted."""
        return isinstance(self.refusal, Invalid) and self.refusal.field == name


def hidden_fields(shown: ItemView, subject: str, **more: str) -> dict[str, str]:
    """Return the fields that say which numbers were shown, and when."""
    return {"stamp": shown.stamp, SENT: seal_time(subject, now()), **more}


def read_answer(subject: str) -> Sent:
    """Return the answer that this request sends."""
    fields = dict(list(request.form.lists())[:MOST_FIELDS])
    return Sent(fields, elapsed_ms(request.form.get(SENT, ""), subject, now()))
