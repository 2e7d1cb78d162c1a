"""Figures as SVG text, one figure family a module."""
