"""All figures by name: check a call, draw a call."""

from app.figures.airspeed import AIRSPEED
from app.figures.altimeter import ALTIMETER
from app.figures.apparent_vertical import APPARENT_VERTICAL
from app.figures.card_plane import CARD_PLANE
from app.figures.chart_sketch import CHART_SKETCH
from app.figures.clock import CLOCK
from app.figures.correction_card import CORRECTION_CARD, SWING_TABLE
from app.figures.deviation_curve import DEVIATION_CURVE
from app.figures.dial import HEADING_INDICATOR, VERTICAL_CARD
from app.figures.dip_needles import DIP_NEEDLES
from app.figures.drum import DRUM
from app.figures.figure import Figure
from app.figures.gyro_panel import GYRO_PANEL
from app.figures.heading_circle import HEADING_CIRCLE
from app.figures.instrument_strip import INSTRUMENT_STRIP
from app.figures.isogonals import ISOGONALS
from app.figures.ladder import LADDER
from app.figures.marks import ESTIMATE_MARK, PROGRESS, TALLY
from app.figures.meridians import MERIDIANS
from app.figures.model import Drawing, FigureCall, Language, Medium, WrongFigure
from app.figures.north_fan import NORTH_FAN
from app.figures.parameters import given, problems_with
from app.figures.plumbing import PLUMBING
from app.figures.rose import ROSE
from app.figures.runway_plan import RUNWAY_PLAN
from app.figures.runway_wind import RUNWAY_WIND
from app.figures.suction_gauge import SUCTION_GAUGE
from app.figures.tilted_card import TILTED_CARD
from app.figures.time_plot import TIME_PLOT
from app.figures.track_sketch import TRACK_SKETCH
from app.figures.turn_from_above import TURN_FROM_ABOVE
from app.figures.turn_instrument import TURN_INSTRUMENT
from app.figures.wind_triangle import WIND_TRIANGLE
from app.figures.year_plot import YEAR_PLOT

_ALL = (
    DRUM,
    VERTICAL_CARD,
    HEADING_INDICATOR,
    ALTIMETER,
    AIRSPEED,
    CLOCK,
    SUCTION_GAUGE,
    TURN_INSTRUMENT,
    INSTRUMENT_STRIP,
    GYRO_PANEL,
    PLUMBING,
    ISOGONALS,
    DIP_NEEDLES,
    CORRECTION_CARD,
    SWING_TABLE,
    DEVIATION_CURVE,
    TURN_FROM_ABOVE,
    LADDER,
    HEADING_CIRCLE,
    ROSE,
    NORTH_FAN,
    RUNWAY_PLAN,
    RUNWAY_WIND,
    WIND_TRIANGLE,
    TRACK_SKETCH,
    CHART_SKETCH,
    MERIDIANS,
    TILTED_CARD,
    APPARENT_VERTICAL,
    CARD_PLANE,
    TIME_PLOT,
    YEAR_PLOT,
    ESTIMATE_MARK,
    TALLY,
    PROGRESS,
)
_FIGURES: dict[str, Figure] = {figure.name: figure for figure in _ALL}


def figure_names() -> tuple[str, ...]:
    """Return the names of all figures."""
    return tuple(_FIGURES)


def figure_parameters(name: str) -> dict[str, str]:
    """Return a figure's parameters, each with what it accepts in words. Raises WrongFigure for an unknown name."""
    return {
        parameter: f"{kind.accepts}{'' if kind.needed else ' (may be left out)'}"
        for parameter, kind in _find(name).parameters.items()
    }


def check_figure(call: FigureCall) -> list[str]:
    """List what is wrong with a call in plain words; empty when it can be drawn."""
    if call.name not in _FIGURES:
        return [f"there is no figure {call.name!r}: there are {', '.join(_FIGURES)}"]
    figure, values = _FIGURES[call.name], given(call.parameters)
    return problems_with(figure.parameters, values) or figure.conflicts(values)


def draw_figure(call: FigureCall, language: Language = "en", medium: Medium = "page") -> Drawing:
    """Draw a figure. Raises WrongFigure with the words of `check_figure` when it cannot be drawn."""
    problems = check_figure(call)
    if problems:
        raise WrongFigure(f"{call.name}: {'; '.join(problems)}")
    return _FIGURES[call.name].draw(given(call.parameters), language, medium)


def _find(name: str) -> Figure:
    if name not in _FIGURES:
        raise WrongFigure(f"there is no figure {name!r}: there are {', '.join(_FIGURES)}")
    return _FIGURES[name]
