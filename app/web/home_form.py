"""The form of the home place and the house rules."""

from datetime import date

from flask_babel import gettext, lazy_gettext
from flask_wtf import FlaskForm
from wtforms import SelectChoice, SelectField, StringField
from wtforms.validators import ValidationError

from app.questions.conventions import Conventions, pressure_unit_in
from app.services.homes import RULES, HomeWish
from app.services.places import Place
from app.web.forms import CoordinateField, cut

LISTED, TYPED = "listed", "typed"
AS_THE_PLACE = ""
WORDS: dict[str | int, object] = {
    "ca-south": lazy_gettext("Canada, southern airspace"),
    "ca-north": lazy_gettext("Canada, northern airspace"),
    "us": lazy_gettext("United States"),
    "uk": lazy_gettext("United Kingdom"),
    "easa": lazy_gettext("European Union (EASA)"),
    "nz": lazy_gettext("New Zealand"),
    "au": lazy_gettext("Australia"),
    "latitude": lazy_gettext("the latitude and half the bank"),
    "allowance": lazy_gettext("a fixed allowance"),
    "exact": lazy_gettext("by the formula"),
    "fifteen-percent": lazy_gettext("15 per cent of the true airspeed"),
    "tenth-plus-seven": lazy_gettext("a tenth of the true airspeed, plus 7"),
    "inhg": lazy_gettext("inches of mercury"),
    "hpa": lazy_gettext("hectopascals"),
}


def _offer(rule: str, amount: str = "{}°") -> list[SelectChoice]:
    return [SelectChoice(str(value), WORDS.get(value, amount.format(value))) for value in RULES[rule]]


def _offer_by_place(rule: str) -> list[SelectChoice]:
    return [SelectChoice(AS_THE_PLACE, lazy_gettext("as at the place")), *_offer(rule)]


class HomeForm(FlaskForm):  # type: ignore[misc] # the library has no types
    """Where and when the questions are set, and by which rules. What a rule accepts is for the use case to say."""

    where = StringField(default=LISTED)
    place_id = SelectField(lazy_gettext("Airfield"), validate_choice=False)
    latitude_deg = CoordinateField(lazy_gettext("Latitude, degrees"), letters=("N", "S"))
    longitude_deg = CoordinateField(lazy_gettext("Longitude, degrees"), letters=("E", "WO"))
    when = StringField(lazy_gettext("Date"))
    region = SelectField(lazy_gettext("Airspace rules"), choices=_offer_by_place("region"), validate_choice=False)
    pressure_unit = SelectField(
        lazy_gettext("Altimeter settings in"), choices=_offer_by_place("pressure_unit"), validate_choice=False
    )
    feet_per_hpa = SelectField(
        lazy_gettext("Feet for one hectopascal"), choices=_offer("feet_per_hpa", "{}"), validate_choice=False
    )
    rollout_rule = SelectField(
        lazy_gettext("Roll-out onto north or south, early or late by"),
        choices=_offer("rollout_rule"),
        validate_choice=False,
    )
    allowance_deg = SelectField(
        lazy_gettext("The fixed allowance"), choices=_offer("allowance_deg"), validate_choice=False
    )
    rate_rule = SelectField(lazy_gettext("Bank of a rate-one turn"), choices=_offer("rate_rule"), validate_choice=False)
    hi_limit_deg = SelectField(
        lazy_gettext("Most error of the heading indicator in 15 minutes"),
        choices=_offer("hi_limit_deg"),
        validate_choice=False,
    )
    check_limit_deg = SelectField(
        lazy_gettext("Most error of the compass on a known heading, its card applied"),
        choices=_offer("check_limit_deg"),
        validate_choice=False,
    )
    card_limit_deg = SelectField(
        lazy_gettext("Swing the compass when deviation exceeds"),
        choices=_offer("card_limit_deg"),
        validate_choice=False,
    )

    @property
    def house_rules(self) -> tuple[SelectField, ...]:
        """The rules in the order of the form."""
        return tuple(self[name] for name in RULES)

    def offer_places(self, places: tuple[Place, ...]) -> None:
        """List the demo airfields by area."""
        self.place_id.choices = [
            SelectChoice(place.id, f"{place.name}, {place.near}", optgroup=place.area) for place in places
        ]

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

    def wish(self) -> HomeWish:
        """Return what was asked for."""
        chosen = {name: self[name].data for name in RULES if self[name].data not in {None, AS_THE_PLACE}}
        known = {name: {str(value): value for value in RULES[name]} for name in chosen}
        rules = {name: known[name].get(text, text) for name, text in chosen.items()}
        when = date.fromisoformat(self.when.data.strip())
        if self.where.data == TYPED:
            return HomeWish(when, None, self.latitude_deg.data, self.longitude_deg.data, rules)
        return HomeWish(when, self.place_id.data, rules=rules)


def as_fields(conventions: Conventions, places: tuple[Place, ...]) -> dict[str, object]:
    """Return the fields that would give these conventions."""
    listed = next((place for place in places if place.name == conventions.place), None)
    region = AS_THE_PLACE if listed and listed.region == conventions.region else conventions.region
    where = {"where": LISTED, "place_id": listed.id} if listed else {"where": TYPED} | _coordinates(conventions)
    rules = {name: str(getattr(conventions, name)) for name in RULES} | {"region": region}
    if conventions.pressure_unit == pressure_unit_in(conventions.region):
        rules["pressure_unit"] = AS_THE_PLACE
    return {**rules, **where, "when": conventions.date}


def _coordinates(conventions: Conventions) -> dict[str, object]:
    return {"latitude_deg": conventions.latitude_deg, "longitude_deg": conventions.longitude_deg}
