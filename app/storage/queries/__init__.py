"""Queries: Core statements built once, functions that return frozen records. None of them commits."""
