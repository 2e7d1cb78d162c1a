"""Reading the three-hand altimeter."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import whole
from app.questions.conventions import Conventions
from app.questions.model import Solution
from app.questions.solvers.registry import solver


@solver("read-altimeter")
def read_altimeter(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the altitude the three hands show, feet."""
    altitude = parameters["indicated_ft"]
    within, ten_thousands = altitude % 1000, altitude // 10_000
    shown = {"indicated_ft": altitude, **_setting(parameters["setting_hundredths"], conventions)}
    wrong = {
        "hands-swapped": _swapped(altitude),
        "ten-thousand-off": altitude - 10_000 if ten_thousands else altitude + 10_000,
        "thousand-off": altitude + (1000 if within >= 500 else -1000),
        "long-hand-only": within,
    }
    if altitude < 1000:
        wrong.pop("long-hand-only")
    if wrong["thousand-off"] < 0:
        wrong.pop("thousand-off")
    return Solution(
        key=altitude,
        given=shown,
        wrong={name: value for name, value in wrong.items() if value != altitude},
        quantities={
            "ten_thousands_ft": 10_000 * ten_thousands,
            "thousands_ft": altitude % 10_000 - within,
            "hundreds_ft": within,
            "ten_thousand": 10_000,
            "rim_numeral": ten_thousands,
            "short_numeral": altitude % 10_000 // 1000,
            "long_numeral": within // 100,
            "marks": within % 100 // 20,
        },
        steps=("rim", "short", "long", "sum"),
        figures=(FigureCall("altimeter", shown),),
        model_notes=("read-in-flight",),
        features={"above-ten-thousand": float(ten_thousands > 0), "near-thousand": float(within >= 900)},
    )


def _swapped(altitude_ft: int) -> int:
    """Return what is read when the long hand is taken for thousands and the short one for hundreds, to 20 feet."""
    long_numeral, short_numeral = altitude_ft % 1000 // 100, altitude_ft % 10_000 / 1000
    return altitude_ft // 10_000 * 10_000 + 1000 * long_numeral + 20 * whole(short_numeral * 100 / 20)


def _setting(hundredths: int, conventions: Conventions) -> dict[str, float]:
    if conventions.pressure_unit == "hpa":
        return {"setting_hpa": whole(hundredths * 0.338639)}
    return {"setting_inhg": hundredths / 100}
