"""Solvers, one module a topic: each works a family's key and its wrong values from parameters."""

from app.questions.solvers import (
    datum_conversions,
    datum_differences,
    datum_gps,
    datum_north,
    datum_rules,
    datum_terms,
    datum_variation,
    dynamic_rollout,
    dynamic_speed,
    dynamic_taper,
    dynamic_turning,
    principle_checks,
    principle_errors,
    principle_parts,
    reading_card,
    reading_face,
    turns,
)
from app.questions.solvers.registry import find_solver, solver_names

__all__ = [
    "datum_conversions",
    "datum_differences",
    "datum_gps",
    "datum_north",
    "datum_rules",
    "datum_terms",
    "datum_variation",
    "dynamic_rollout",
    "dynamic_speed",
    "dynamic_taper",
    "dynamic_turning",
    "find_solver",
    "principle_checks",
    "principle_errors",
    "principle_parts",
    "reading_card",
    "reading_face",
    "solver_names",
    "turns",
]
