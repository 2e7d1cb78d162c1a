"""Solvers, one module a topic: each works a family's key and its wrong values from parameters."""
