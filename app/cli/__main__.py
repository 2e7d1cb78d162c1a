"""The command line inside the project's own environment; app.bootstrap starts it."""

from app.cli import main

main()
