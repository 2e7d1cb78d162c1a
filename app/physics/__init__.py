"""Pure models of the Earth's field, the compass card, turns, headings, wind, track and pressure."""
