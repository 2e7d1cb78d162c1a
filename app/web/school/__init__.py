"""What a school administrator sees of the whole school."""

from app.web.school import audit, erasing, invitations, quality, settings
from app.web.school.blueprint import school

__all__ = ["audit", "erasing", "invitations", "quality", "school", "settings"]
