"""The form of the bench. Its fields are the address of the page, so that a link holds the whole state."""

import re
from collections.abc import Sequence
from datetime import date
from typing import Any

from flask_babel import gettext, lazy_gettext
from flask_wtf import FlaskForm
from wtforms import Field, SelectChoice, SelectField, StringField
from wtforms.validators import ValidationError
from wtforms.widgets import TextInput

from app.services.bench import BenchWish
from app.services.homes import HomeWish
from app.services.places import Place
from app.web.forms import PLAIN, CoordinateField, cut

TYPED, OWN_DIP = "typed", "dip"
NUMBER = re.compile(r"[+-]?\d{1,4}(?:\.\d{0,4})?", re.ASCII)
HEADING = re.compile(r"\d{1,3}", re.ASCII)


class NumberField(Field):  # type: ignore[misc] # the library has no types
    """A number with a point or a comma; nothing leaves the default."""

    widget = TextInput()

    def _value(self) -> str:
        return self.text if getattr(self, "text", None) else ("" if self.data is None else f"{self.data:g}")

    def process_formdata(self, valuelist: Sequence[str]) -> None:
        """Read what was typed."""
        self.text = valuelist[0].strip() if valuelist else ""
        if self.text:
            self.data = self._read(self.text)

    def _read(self, text: str) -> float:
        plain = text.translate(PLAIN)
        if not NUMBER.fullmatch(plain):
            raise ValueError(
                gettext("“%(value)s” is not a number. Accepted: digits, such as 15 or 2.5.", value=cut(text))
            )
        return float(plain)


class HeadingField(NumberField):
    """A magnetic heading in whole degrees; 000 is north as 360 is."""

    def _value(self) -> str:
        return self.text if getattr(self, "text", None) else f"{self.data:03d}"

    def process_formdata(self, valuelist: Sequence[str]) -> None:
        """Read what was typed, and show it as three digits from then on."""
        super().process_formdata(valuelist)
        if self.text:
            self.text = f"{self.data:03d}"

    def _read(self, text: str) -> int:
        plain = text.translate(PLAIN)
        if not HEADING.fullmatch(plain):
            message = gettext("“%(value)s” is not a heading. Accepted: 001 to 360, such as 090.", value=cut(text))
            raise ValueError(message)
        return int(plain) or 360


class OfferedField(SelectField):  # type: ignore[misc] # the library has no types
    """A choice out of a few; another value is named together with what is offered."""

    def pre_validate(self, _form: FlaskForm) -> None:
        """Refuse a value that is not offered."""
        offered = [str(value) for value, *_ in self.iter_choices()] if not self.has_groups() else self._in_groups()
        if self.data not in offered:
            accepted = ", ".join(offered[:9])
            raise ValidationError(
                gettext(
                    "“%(value)s” is not offered. Accepted: %(accepted)s.", value=cut(str(self.data)), accepted=accepted
                )
            )

    def _in_groups(self) -> list[str]:
        return [str(each.value) for _, choices in self.iter_groups() for each in choices]


class BenchForm(FlaskForm):  # type: ignore[misc] # the library has no types
    """Where, when and what is flown, and the moment looked at."""

    class Meta:
        """It changes nothing, so it needs no token."""

        csrf = False

    place_id = OfferedField(lazy_gettext("Place"))
    latitude_deg = CoordinateField(lazy_gettext("Latitude, degrees"), letters=("N", "S"))
    longitude_deg = CoordinateField(lazy_gettext("Longitude, degrees"), letters=("E", "WO"))
    dip_deg = NumberField(lazy_gettext("Dip, degrees"), default=68.0)
    when = StringField(lazy_gettext("Date"))
    doing = OfferedField(
        lazy_gettext("Manoeuvre"),
        choices=[
            SelectChoice("turn", lazy_gettext("turn")),
            SelectChoice("speed", lazy_gettext("change of speed")),
            SelectChoice("path", lazy_gettext("climb or dive with a change of speed")),
            SelectChoice("rough", lazy_gettext("rough air")),
            SelectChoice("free-fall", lazy_gettext("pushed over into free fall")),
        ],
        default="turn",
    )
    start_deg = HeadingField(lazy_gettext("From, magnetic"), default=270)
    target_deg = HeadingField(lazy_gettext("To, magnetic"), default=90)
    turn = OfferedField(
        lazy_gettext("Turn"),
        choices=[
            SelectChoice("right", lazy_gettext("to the right")),
            SelectChoice("left", lazy_gettext("to the left")),
        ],
        default="right",
    )
    rate = OfferedField(
        lazy_gettext("Rate"),
        choices=[
            SelectChoice("one", lazy_gettext("rate one, 3° a second")),
            SelectChoice("half", lazy_gettext("half rate, 1.5° a second")),
            SelectChoice("bank", lazy_gettext("by the bank below")),
        ],
        default="one",
    )
    bank_deg = NumberField(lazy_gettext("Bank, degrees"), default=15.0)
    tas_kt = NumberField(lazy_gettext("True airspeed, kt"), default=100.0)
    path = OfferedField(
        lazy_gettext("Path"),
        choices=[
            SelectChoice("dive", lazy_gettext("dive, 8° down")),
            SelectChoice("climb", lazy_gettext("climb, 8° up")),
        ],
        default="dive",
    )
    change_kt_s = NumberField(lazy_gettext("Change of speed, kt a second"), default=2.0)
    seconds = NumberField(lazy_gettext("For, seconds"), default=10.0)
    at = NumberField(lazy_gettext("Look at, seconds"))

    def offer_places(self, places: tuple[Place, ...]) -> None:
        """List the demo airfields by area, then the two ways to give a place of one's own."""
        groups: dict[str, list[tuple[str, str]]] = {}
        for place in places:
            groups.setdefault(place.area, []).append((place.id, f"{place.name}, {place.near}"))
        groups[gettext("Of your own")] = [
            (TYPED, gettext("coordinates")),
            (OWN_DIP, gettext("a field of 50,000 nT with a dip")),
        ]
        self.place_id.choices = groups

    def validate_when(self, field: StringField) -> None:
        """Refuse what is not a date."""
        text = (field.data or "").strip()
        try:
            date.fromisoformat(text)
        except ValueError as error:
            message = gettext(
                "“%(value)s” is not a date. Accepted: year-month-day, such as 2026-09-01.", value=cut(text)
            )
            raise ValidationError(message) from error

    def home(self) -> tuple[HomeWish, float | None]:
        """Return where: a home, and the dip of a field of one's own."""
        when = date.fromisoformat(self.when.data.strip())
        if self.place_id.data == TYPED:
            return HomeWish(when, None, self.latitude_deg.data, self.longitude_deg.data), None
        return HomeWish(when, self.place_id.data), self.dip_deg.data if self.place_id.data == OWN_DIP else None

    def wish(self) -> BenchWish:
        """Return what is flown."""
        return BenchWish(**{name: self[name].data for name in BenchWish._fields})

    def query(self) -> dict[str, Any]:
        """Return the state as it stands in an address, without what does not matter to it."""
        own = {TYPED: ("latitude_deg", "longitude_deg"), OWN_DIP: ("dip_deg",)}.get(self.place_id.data, ())
        doing = {
            "turn": (
                "start_deg",
                "target_deg",
                "turn",
                "rate",
                *(["bank_deg"] if self.rate.data == "bank" else []),
                "tas_kt",
            ),
            "speed": ("start_deg", "change_kt_s", "seconds"),
            "path": ("start_deg", "path", "change_kt_s", "seconds", "tas_kt"),
            "rough": ("start_deg", "seconds", "tas_kt"),
        }.get(self.doing.data, ())
        values = {name: self[name].data for name in ("place_id", *own, "when", "doing", *doing)}
        return {name: f"{value:.10g}" if isinstance(value, float) else value for name, value in values.items()}
