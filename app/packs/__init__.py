"""Families of questions as typed data, read from TOML with issues that name file and line."""
