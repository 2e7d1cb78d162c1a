"""The forms of the deviation workshop. Their fields are the address of the page: a link holds the whole state."""

from collections.abc import Sequence
from typing import Any

from flask_babel import gettext, lazy_gettext
from flask_wtf import FlaskForm
from wtforms import SelectChoice, TextAreaField

from app.physics.deviation import SWING_HEADINGS_DEG, Coefficients
from app.services.deviation_workshop import SAMPLE, STAGES, Workshop, WorkshopWish, at_swing_headings, sheet_of
from app.services.messages import say_number
from app.services.swing_sheet import write_sheet
from app.web.bench.bench_form import OfferedField
from app.web.current import language
from app.web.forms import CoordinateField, cut

COEFFICIENTS = tuple(f"coefficient_{name}_deg" for name in "abcde")
EIGHT = tuple(f"on_{heading or 360:03d}" for heading in SWING_HEADINGS_DEG)
FIELDS = {"coefficients": COEFFICIENTS, "deviations": EIGHT, "readings": ("readings",)}


class SidedField(CoordinateField):
    """Degrees with E or W, or with a sign; an address that does not say them leaves the default."""

    def __init__(self, label: object = None, **options: Any) -> None:
        super().__init__(label, ("E", "WO"), **options)

    def process_formdata(self, valuelist: Sequence[str]) -> None:
        """Read what was typed; nothing typed is refused."""
        if valuelist:
            self.text = valuelist[0].strip()
            self.data = self._read(self.text)

    def _value(self) -> str:
        if self.text is None and self.data is not None:
            return say_number(self.data, language())
        return super()._value()

    def _read(self, text: str) -> float:
        try:
            return super()._read(text)
        except ValueError as error:
            message = gettext(
                "“%(value)s” is not a number of degrees. Accepted: with E or W, or with a sign, such as 2.5 E or -3.",
                value=cut(text),
            )
            raise ValueError(message) from error


class DeviationForm(FlaskForm):  # type: ignore[misc] # the library has no types
    """What the workshop starts from: coefficients, eight deviations or a swing sheet; and the step looked at."""

    class Meta:
        """It changes nothing, so it needs no token."""

        csrf = False

    enter = OfferedField(
        lazy_gettext("Start from"),
        choices=[
            SelectChoice("coefficients", lazy_gettext("coefficients")),
            SelectChoice("deviations", lazy_gettext("eight deviations")),
            SelectChoice("readings", lazy_gettext("a swing sheet")),
        ],
        default="coefficients",
    )
    coefficient_a_deg = SidedField(lazy_gettext("A, the same on every heading"), default=SAMPLE.a)
    coefficient_b_deg = SidedField(lazy_gettext("B, most on E and W"), default=SAMPLE.b)
    coefficient_c_deg = SidedField(lazy_gettext("C, most on N and S"), default=SAMPLE.c)
    coefficient_d_deg = SidedField(lazy_gettext("D, most on NE, SE, SW and NW"), default=SAMPLE.d)
    coefficient_e_deg = SidedField(lazy_gettext("E, most on N, E, S and W"), default=SAMPLE.e)
    on_360 = SidedField(lazy_gettext("On N"), default=at_swing_headings(SAMPLE)[0])
    on_045 = SidedField(lazy_gettext("On NE"), default=at_swing_headings(SAMPLE)[1])
    on_090 = SidedField(lazy_gettext("On E"), default=at_swing_headings(SAMPLE)[2])
    on_135 = SidedField(lazy_gettext("On SE"), default=at_swing_headings(SAMPLE)[3])
    on_180 = SidedField(lazy_gettext("On S"), default=at_swing_headings(SAMPLE)[4])
    on_225 = SidedField(lazy_gettext("On SW"), default=at_swing_headings(SAMPLE)[5])
    on_270 = SidedField(lazy_gettext("On W"), default=at_swing_headings(SAMPLE)[6])
    on_315 = SidedField(lazy_gettext("On NW"), default=at_swing_headings(SAMPLE)[7])
    readings = TextAreaField(lazy_gettext("Readings"), default=write_sheet(sheet_of(SAMPLE)))
    step = OfferedField(
        lazy_gettext("Steps done"),
        choices=[SelectChoice(str(step)) for step in range(STAGES + 1)],
        default=str(STAGES),
    )

    def wish(self) -> WorkshopWish:
        """Return what the workshop is to work out."""
        return WorkshopWish(
            self.enter.data,
            Coefficients(*(self[name].data for name in COEFFICIENTS)),
            tuple(self[name].data for name in EIGHT),
            self.readings.data or "",
            int(self.step.data),
        )

    def query(self) -> dict[str, Any]:
        """Return the state as it stands in an address."""
        values = {name: self[name].data for name in FIELDS[self.enter.data]}
        numbers = {name: f"{value:.10g}" if isinstance(value, float) else value for name, value in values.items()}
        return {"enter": self.enter.data, **numbers, "step": self.step.data}


def same_entered(form: DeviationForm, shown: Workshop) -> dict[str, dict[str, Any]]:
    """Return, for each way to start, the address of the same compass: going over loses nothing but decimals."""
    sized = (shown.found.a, shown.found.b, shown.found.c, shown.found.d, shown.found.e)
    sheet = shown.readings if form.enter.data == "readings" else sheet_of(shown.found)
    eight = zip(EIGHT, at_swing_headings(shown.found), strict=True)
    ways: dict[str, dict[str, Any]] = {
        "coefficients": {name: f"{value:.4g}" for name, value in zip(COEFFICIENTS, sized, strict=True)},
        "deviations": {name: f"{value:g}" for name, value in eight},
        "readings": {"readings": write_sheet(sheet)},
    }
    step = {"step": form.step.data}
    return {way: {"enter": way, **fields, **step} for way, fields in ways.items()} | {form.enter.data: form.query()}
