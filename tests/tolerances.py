"""Named tolerances. A test says which printed rounding, or which physical quantity, it allows for."""

EXACT = 1e-9  # floating-point noise, whatever the unit
ARCMINUTE = 1.0 / 60.0
PRINTED_HUNDREDTH = 0.005 + EXACT  # half of the last printed place
PRINTED_TENTH = 0.05 + EXACT
HALF_DEGREE = 0.5 + EXACT  # whole degrees printed
HALF_KNOT = 0.5 + EXACT
