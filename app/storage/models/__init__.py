"""All tables. Importing this package is what makes `Base.metadata` complete."""

from app.storage.models.attempt import Attempt
from app.storage.models.drill import Drill, DrillItem
from app.storage.models.report import Report
from app.storage.models.school import VISITORS_SCHOOL_ID, School
from app.storage.models.visit import Visit

__all__ = ["VISITORS_SCHOOL_ID", "Attempt", "Drill", "DrillItem", "Report", "School", "Visit"]
