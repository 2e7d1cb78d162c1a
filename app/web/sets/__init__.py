"""Topic sets for whoever teaches: putting them together, giving them out, following them, printing them."""

from app.web.sets import assigning, building, changing, following, projecting, sheets
from app.web.sets.blueprint import sets

__all__ = ["assigning", "building", "changing", "following", "projecting", "sets", "sheets"]
