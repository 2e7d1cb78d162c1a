"""What the airspeed indicator and the altimeter show with a pitot or static line blocked.

Standard atmosphere, setting 1013.25, calibrated airspeeds, air taken as incompressible. The airspeed indicator feels
the pressure in the pitot line less that in the static line, the altimeter the static line alone. A ram hole blocked
with its drain open lets the pitot line sink to the outside pressure; a line shut off keeps what it held. Physics of
the instruments as in FAA-H-8083-25C ch. 8.
"""

from dataclasses import dataclass
from math import sqrt
from typing import Literal

from app.physics.errors import require
from app.physics.pressure import SEA_LEVEL_KG_M3, standard_altitude_ft, standard_pressure_hpa
from app.physics.units import KNOT_MS

Fault = Literal["none", "ram", "ram-and-drain", "static", "all"]


@dataclass(frozen=True)
class FlightState:
    """Altitude and calibrated airspeed, really flown or shown."""

    altitude_ft: float
    cas_kt: float


def shown_with_blockage(fault: Fault, when_blocked: FlightState, now: FlightState) -> FlightState:
    """Return what is shown `now` after a line was blocked in another state; "all" is ram, drain and static."""
    static_blocked = fault in ("static", "all")
    static_hpa = standard_pressure_hpa(when_blocked.altitude_ft if static_blocked else now.altitude_ft)
    return _shown(_pitot_hpa(fault, when_blocked, now), static_hpa)


def shown_on_alternate_static(now: FlightState, suction_hpa: float) -> FlightState:
    """Return what is shown on cabin air that is `suction_hpa` (0..20) below the pressure outside."""
    require("suction_hpa", suction_hpa, 0.0, 20.0)
    static_hpa = standard_pressure_hpa(now.altitude_ft) - suction_hpa
    return _shown(_pitot_hpa("none", now, now), static_hpa)


def _pitot_hpa(fault: Fault, when_blocked: FlightState, now: FlightState) -> float:
    if fault == "ram":
        return standard_pressure_hpa(now.altitude_ft)
    felt = when_blocked if fault in ("ram-and-drain", "all") else now
    return standard_pressure_hpa(felt.altitude_ft) + _impact_hpa(felt.cas_kt)


def _impact_hpa(cas_kt: float) -> float:
    speed_ms = require("cas_kt", cas_kt, 0.0, 300.0) * KNOT_MS
    return SEA_LEVEL_KG_M3 * speed_ms * speed_ms / 200.0  # half rho V^2 in pascals, a hundred of them a hectopascal


def _shown(pitot_hpa: float, static_hpa: float) -> FlightState:
    impact_hpa = max(0.0, pitot_hpa - static_hpa)
    return FlightState(standard_altitude_ft(static_hpa), sqrt(200.0 * impact_hpa / SEA_LEVEL_KG_M3) / KNOT_MS)
