"""The workshop's drawings: the curve in two widths with where its points stand, and the correction cards."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass

from app.figures import draw_figure
from app.figures.deviation_curve import frame_of
from app.figures.model import Drawing, FigureCall
from app.packs.spec import Language
from app.physics.angles import round_half_up
from app.physics.deviation import Coefficients
from app.services.deviation_workshop import Workshop, card_of


@dataclass(frozen=True, slots=True)
class Curve:
    """A drawn curve, and its frame in per cent of width and height: points across, the zero line, one degree."""

    width: str
    drawing: Drawing
    frame: dict[str, object]


def draw_curves(shown: Workshop, span_deg: float | None, language: Language) -> Sequence[Curve]:
    """Draw what was found and what is left, wide and narrow; `span_deg` keeps a scale from shrinking under a hand."""
    points = [
        {"magnetic_deg": each.magnetic_deg, "deviation_deg": round_half_up(each.deviation_deg, 6)}
        for each in shown.readings
    ]
    values = {"coefficients": asdict(shown.found), "points": points or None, "span_deg": span_deg}
    if shown.step:
        values["after"] = asdict(shown.left)
    return [_curve(FigureCall("deviation-curve", {**values, "width": width}), language) for width in ("wide", "narrow")]


def draw_card(coefficients: Coefficients, language: Language) -> Drawing | None:
    """Draw the correction card of coefficients; None where there is none."""
    card = card_of(coefficients)
    return draw_figure(FigureCall("correction-card", {"card": card}), language) if card else None


def _curve(call: FigureCall, language: Language) -> Curve:
    values = {name: value for name, value in call.parameters.items() if value is not None}
    frame = frame_of(values)
    wide, high = frame.size
    points = values.get("points", ())
    where = {
        "across": [round(100 * frame.at(each["magnetic_deg"] % 360, 0)[0] / wide, 2) for each in points],
        "middle": round(100 * frame.at(0, 0)[1] / high, 3),
        "degree": round(100 * frame.per_degree / high, 4),
        "span": frame.span_deg,
    }
    return Curve(values["width"], draw_figure(call, language), where)
