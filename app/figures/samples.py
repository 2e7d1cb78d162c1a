"""Calls that between them show everything the figures can draw: for tests, and for the sheet of all figures."""

from typing import Any, Final

Sample = tuple[str, dict[str, Any]]

CARD: Final = [{"for_deg": heading, "steer_deg": heading - 2} for heading in range(30, 361, 30)]
TWO_ROWS: Final = [{**entry, "steer_off_deg": entry["steer_deg"] + 1} for entry in CARD]
EIGHT: Final = [{"for_deg": heading, "steer_deg": heading - 1} for heading in range(45, 361, 45)]
TIMES: Final = [float(second) for second in range(91)]
REAL: Final = [(270 + min(180, 3 * second)) % 360 for second in range(91)]
READING: Final = [(265 + min(185, 3 * second)) % 360 for second in range(91)]
SWUNG: Final = {"a": 1.0, "b": 12.0, "c": 8.0, "d": 5.0, "e": 1.5}
PAST: Final = [{"year": 1900 + 5 * k, "variation_deg": -8.0 - 0.3 * k} for k in range(26)]
PRESENT: Final = [{"year": 2025 + k, "variation_deg": -15.6 + 0.1 * k} for k in range(6)]
LEFT_OVER: Final = {"a": 0.0, "b": 0.0, "c": 0.0, "d": -2.0, "e": 1.5}
FOUND: Final = [
    {"magnetic_deg": heading, "deviation_deg": found}
    for heading, found in ((360, 10.5), (45, 20.0), (90, 11.5), (135, -1.2), (180, -5.5), (225, -8.0), (270, -12.5))
]
RIGHT_TURN: Final = {"start_deg": 270, "target_deg": 360, "turn": "right"}
MODEL: Final = {"dip_deg": 69, "bank_deg": 15, "show_readings": True}
ARCS: Final = {"white_low_kt": 42, "white_high_kt": 88, "green_low_kt": 50, "green_high_kt": 118, "red_kt": 152}

FIX: Final = [
    {"label": "A", "mark": "landmark", "east_nm": 8, "north_nm": 40},
    {"label": "B", "mark": "landmark", "east_nm": 52, "north_nm": 34},
    {"label": "1", "mark": "ring", "east_nm": 30, "north_nm": 15},
    {"label": "2", "mark": "ring", "east_nm": 20.5, "north_nm": 24},
    {"label": "3", "mark": "ring", "east_nm": 40, "north_nm": 8},
]
DIVERSION: Final = [
    {"label": "D", "mark": "field", "east_nm": 10, "north_nm": 10},
    {"label": "P", "mark": "aircraft", "east_nm": 60, "north_nm": 40},
    {"label": "X", "mark": "field", "east_nm": 115, "north_nm": 80},
]

SAMPLES: Final[list[Sample]] = [
    ("drum", {"face": "drum", "reading_deg": 307}),
    ("drum", {"reading_deg": 360, "screws": True}),
    ("drum", {"reading_deg": 40, "hide_deg": 60}),
    ("drum", {"reading_deg": 355, "low_deg": 345, "high_deg": 5, "key_deg": 355, "yours_deg": 350}),
    ("drum", {"reading_deg": 307, "key_deg": 307, "yours_deg": 127, "screws": True}),
    ("vertical-card", {"face": "vertical-card", "reading_deg": 307}),
    ("vertical-card", {"reading_deg": 40, "hide_deg": 60, "key_deg": 40, "yours_deg": 47.5}),
    ("heading-indicator", {"indicator_deg": 95, "knob": True}),
    ("heading-indicator", {"indicator_deg": 95, "key_deg": 98, "yours_deg": 275}),
    ("altimeter", {"indicated_ft": 6340, "setting_inhg": 30.12}),
    ("altimeter", {"indicated_ft": 12_500, "setting_hpa": 1013}),
    ("turn-instrument", {"instrument": "turn-coordinator", "turn": "right", "mark": "half-way", "ball": "ball-left"}),
    ("turn-instrument", {"instrument": "turn-coordinator", "turn": "left", "mark": "past-the-mark",
                         "ball": "ball-right"}),
    ("turn-instrument", {"instrument": "turn-needle", "turn": "left", "mark": "on-the-mark", "ball": "ball-centre"}),
    ("instrument-strip", {"compass_trend": "compass-steps-up", "indicator_trend": "indicator-rises",
                          "turn_trend": "needle-right", "asi_trend": "asi-faster"}),
    ("instrument-strip", {"compass_trend": "compass-falls", "indicator_trend": "indicator-steady",
                          "turn_trend": "needle-centred", "asi_trend": "asi-hidden"}),
    ("instrument-strip", {"compass_trend": "compass-rocks", "indicator_trend": "indicator-rocks",
                          "turn_trend": "needle-rocks", "asi_trend": "asi-rocks"}),
    ("airspeed", {"ias_kt": 65}),
    ("airspeed", ARCS),
    ("airspeed", ARCS | {"ias_kt": 120}),
    ("clock", {"clock_s": 36_645, "later_clock_s": 36_675}),
    ("clock", {"clock_s": 5_390, "later_clock_s": 5_430}),
    ("suction-gauge", {"suction_inhg": 5.2}),
    ("suction-gauge", {"suction_inhg": 0}),
    ("gyro-panel", {"panel": "classic", "failure": "suction"}),
    ("gyro-panel", {"panel": "electric-horizon", "failure": "electrical"}),
    ("gyro-panel", {"panel": "all-suction", "failure": "pitot"}),
    ("plumbing", {"fault": "ram-drain"}),
    ("plumbing", {"fault": "all"}),
    ("plumbing", {"fault": "alternate"}),
    ("track-sketch", {"gone_nm": 45, "left_nm": 35, "fraction": 0.8, "side": "right", "lines": True}),
    ("track-sketch", {"gone_nm": 20, "left_nm": 40, "fraction": 0.6, "side": "left", "lines": True, "angles": True}),
    ("track-sketch", {"gone_nm": 12, "left_nm": 60, "off_nm": 3, "side": "left", "angles": True}),
    ("chart-sketch", {"square_nm": 5, "spots": FIX}),
    ("chart-sketch", {"square_nm": 5, "spots": FIX, "key_spot": "1", "yours_spot": "2",
                      "lines": [{"from": "A", "bearing_deg": 138.6}, {"from": "B", "bearing_deg": 229.2}]}),
    ("chart-sketch", {"square_nm": 10, "spots": DIVERSION}),
    ("meridians", {"angle_a_deg": 53, "angle_b_deg": 57, "angle_c_deg": 61}),
    ("meridians", {"angle_a_deg": 254, "angle_b_deg": 250, "angle_c_deg": 246}),
    ("meridians", {"angle_a_deg": 121, "angle_b_deg": 125, "angle_c_deg": 129}),
    ("meridians", {"angle_a_deg": 308, "angle_b_deg": 305, "angle_c_deg": 302}),
    ("isogonals", {"isogonal_deg": -12, "next_isogonal_deg": -14, "gone_nm": 36, "left_nm": 24}),
    ("isogonals", {"isogonal_deg": 0, "next_isogonal_deg": 5, "gone_nm": 20, "left_nm": 80}),
    ("isogonals", {"isogonal_deg": -3, "next_isogonal_deg": 7}),
    ("dip-needles", {"dip_a_deg": 69, "dip_b_deg": -2, "dip_c_deg": -64}),
    ("dip-needles", {"dip_a_deg": 17, "dip_b_deg": -1}),
    ("dip-needles", {"dip_a_deg": 63, "show_parts": True}),
    ("dip-needles", {"dip_a_deg": -63, "show_parts": True}),
    ("correction-card", {"card": CARD}),
    ("correction-card", {"card": TWO_ROWS}),
    ("correction-card", {"card": EIGHT}),
    ("swing-table", {"swing": [{"magnetic_deg": each["for_deg"], "compass_deg": each["steer_deg"]} for each in EIGHT]}),
    ("turn-from-above", RIGHT_TURN),
    ("turn-from-above", RIGHT_TURN | MODEL | {"key_deg": 307, "yours_deg": 311}),
    ("turn-from-above", {"start_deg": 90, "target_deg": 330, "turn": "left", "yours_deg": 200} | MODEL),
    ("turn-from-above", {"start_deg": 45, "target_deg": 30, "turn": "right"}),
    ("ladder", {"ask": "compass", "true_deg": 75, "variation_deg": -13, "deviation_deg": -3}),
    ("ladder", {"ask": "compass", "true_deg": 75, "variation_deg": -13, "key": [75, 88, 91]}),
    ("ladder", {"variation_deg": -13, "key": [75, 88, 91], "yours": [75, 62, 63], "first_wrong": "T-M"}),
    ("ladder", {"ask": "true", "compass_deg": 5, "key": [5, 9, 351], "yours": [5, 1, 19], "first_wrong": "C-M"}),
    ("ladder", {"ask": "variation", "true_deg": 75, "magnetic_deg": 88, "key": [75, 88], "yours": [75, 62]}),
    ("ladder", {"rows": "CM", "key": [355, 1], "yours": [355, 355], "deviation_deg": 6, "first_wrong": "C-M"}),
    ("ladder", {"ask": "compass", "key": [75, 100, 106], "yours": [75, 50, 230], "variation_deg": -25}),
    ("heading-circle", {"heading_deg": 90, "speed_change": "faster"}),
    ("heading-circle", {"heading_deg": 225, "speed_change": "slower", "hemisphere": "north", "show_errors": True}),
    ("heading-circle", {"heading_deg": 315, "speed_change": "faster", "hemisphere": "north", "show_errors": True}),
    ("heading-circle", {"heading_deg": 360, "speed_change": "faster", "hemisphere": "south", "show_errors": True}),
    ("heading-circle", {"heading_deg": 45, "turn": "left", "hemisphere": "north", "show_errors": True}),
    ("heading-circle", {"heading_deg": 180, "turn": "right", "hemisphere": "south", "show_errors": True}),
    ("heading-circle", {"heading_deg": 180, "turn": "right", "hemisphere": "none", "show_errors": True}),
    ("rose", {"variation_deg": -13, "true_deg": 75}),
    ("rose", {"variation_deg": 18, "true_deg": 285, "show_variation": False}),
    ("rose", {"variation_deg": 0}),
    ("north-fan", {"true_deg": 75, "magnetic_deg": 88, "compass_deg": 91}),
    ("north-fan", {"true_deg": 290, "variation_deg": 14, "deviation_deg": -4}),
    ("north-fan", {"magnetic_deg": 120, "compass_deg": 123}),
    ("north-fan", {"compass_deg": 123}),
    ("runway-plan", {"runway_true_deg": 77, "variation_deg": -13, "part": "near"}),
    ("runway-plan", {"runway_true_deg": 137, "variation_deg": 24, "part": "far"}),
    ("runway-plan", {"runway_true_deg": 318, "variation_deg": 12, "part": "near", "runway": 31}),
    ("runway-plan", {"runway_true_deg": 4, "variation_deg": -18, "part": "both"}),
    ("runway-wind", {"runway": 9, "wind_from_deg": 50, "wind_kt": 18}),
    ("runway-wind", {"runway": 36, "wind_from_deg": 20, "wind_kt": 15, "gust_kt": 27}),
    ("runway-wind", {"runway": 17, "wind_from_deg": 230, "wind_kt": 22}),
    ("wind-triangle", {"heading_deg": 87, "tas_kt": 110, "track_true_deg": 75, "gs_kt": 92, "wind_from_deg": 131,
                       "wind_kt": 28}),
    ("wind-triangle", {"heading_deg": 350, "tas_kt": 100, "track_true_deg": 5, "gs_kt": 115, "wind_from_deg": 240,
                       "wind_kt": 32}),
    ("tilted-card", {"dip_deg": 69, "bank_deg": 15}),
    ("tilted-card", {"dip_deg": 69, "bank_deg": -5.9, "view": "left"}),
    ("tilted-card", {"dip_deg": -60, "bank_deg": -45}),
    ("tilted-card", {"dip_deg": 60, "bank_deg": 0}),
    ("apparent-vertical", {"bank_deg": 15}),
    ("apparent-vertical", {"bank_deg": 45}),
    ("apparent-vertical", {"bank_deg": -45}),
    ("apparent-vertical", {"bank_deg": -5.9, "view": "left"}),
    ("apparent-vertical", {"bank_deg": 0}),
    ("card-plane", {"dip_deg": 69, "bank_deg": 15}),
    ("card-plane", {"dip_deg": -60, "bank_deg": 20, "heading_deg": 200}),
    ("card-plane", {"dip_deg": 0, "bank_deg": 0}),
    ("time-plot", {"times_s": TIMES, "real_deg": REAL, "reading_deg": READING, "width": "narrow", "at_s": 33,
                   "events": [{"seconds": 5, "name": "full-bank"}]}),
    (
        "time-plot",
        {
            "times_s": TIMES, "real_deg": REAL, "reading_deg": READING, "settled_deg": READING, "width": "wide",
            "events": [{"seconds": 5, "name": "full-bank"}, {"seconds": 80, "name": "roll-out"}],
        },
    ),
    ("year-plot", {"past": PAST, "present": PRESENT, "width": "wide"}),
    ("year-plot", {"past": PAST, "present": PRESENT, "width": "narrow"}),
    ("deviation-curve", {"coefficients": SWUNG, "after": LEFT_OVER, "points": FOUND, "width": "wide"}),
    ("deviation-curve", {"coefficients": SWUNG, "after": LEFT_OVER, "points": FOUND, "width": "narrow"}),
    ("deviation-curve", {"coefficients": LEFT_OVER, "width": "narrow", "span_deg": 20}),
    ("estimate-mark", {"aim": 80}),
    ("estimate-mark", {"aim": 80, "estimate": 62, "low": 40, "high": 75}),
    ("estimate-mark", {"aim": 80, "estimate": 82, "low": 70, "high": 90}),
    ("estimate-mark", {"aim": 80, "estimate": 92, "low": 85, "high": 96}),
    ("tally", {"long": 4, "short": 9}),
    ("progress", {"places": ["right", "missed", "here", "to-come"]}),
    ("progress", {"places": ["right", "missed"]}),
]  # fmt: skip
