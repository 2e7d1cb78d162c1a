"""The item checks: rules over a family's data, over each drawn item and over a batch of draws."""

from app.questions.checks.run import FamilyReport, check_family, check_library

__all__ = ["FamilyReport", "check_family", "check_library"]
