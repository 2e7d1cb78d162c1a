"""The database: engine, types, models, queries and the unit of work."""
