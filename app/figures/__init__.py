"""Figures as SVG text, one figure family a module: `draw_figure`, `check_figure` and `figure_names` are the way in."""

from app.figures.registry import check_figure, draw_figure, figure_names, figure_parameters

__all__ = ["check_figure", "draw_figure", "figure_names", "figure_parameters"]
