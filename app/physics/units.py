"""Units and constants shared by the models. Exact by definition unless a note says otherwise."""

STANDARD_GRAVITY_MS2 = 9.80665
METRES_PER_NM = 1852.0
METRES_PER_SM = 1609.344
METRES_PER_FT = 0.3048
KNOT_MS = METRES_PER_NM / 3600.0
HPA_PER_INHG = 33.8639  # conventional inch of mercury at 0 C, to six figures (NIST SP 811, appendix B)
LITRES_PER_US_GAL = 3.785411784
LITRES_PER_IMP_GAL = 4.54609
KILOGRAMS_PER_LB = 0.45359237
ZERO_CELSIUS_K = 273.15
EARTH_RATE_DEG_H = 15.04  # 360 degrees in a sidereal day of 23 h 56 min


def nm_from_sm(distance_sm: float) -> float:
    """Nautical miles in `distance_sm` statute miles."""
    return distance_sm * METRES_PER_SM / METRES_PER_NM


def sm_from_nm(distance_nm: float) -> float:
    """Statute miles in `distance_nm` nautical miles."""
    return distance_nm * METRES_PER_NM / METRES_PER_SM


def nm_from_km(distance_km: float) -> float:
    """Nautical miles in `distance_km` kilometres."""
    return distance_km * 1000.0 / METRES_PER_NM


def km_from_nm(distance_nm: float) -> float:
    """Kilometres in `distance_nm` nautical miles."""
    return distance_nm * METRES_PER_NM / 1000.0


def hpa_from_inhg(pressure_inhg: float) -> float:
    """Hectopascals in `pressure_inhg` inches of mercury (29.92 inHg is 1013.2 hPa)."""
    return pressure_inhg * HPA_PER_INHG


def inhg_from_hpa(pressure_hpa: float) -> float:
    """Inches of mercury in `pressure_hpa` hectopascals."""
    return pressure_hpa / HPA_PER_INHG
