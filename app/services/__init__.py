"""Use cases: plain functions of a unit of work, an actor and the time."""
