"""Lubberline: a ground-school question bank and drill trainer."""
