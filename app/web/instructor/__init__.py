"""What instructors and the school do for classes and people."""

from app.web.instructor import class_people, classes, people, rechecks, roster, student_page, weak_spots
from app.web.instructor.blueprint import instructor

__all__ = ["class_people", "classes", "instructor", "people", "rechecks", "roster", "student_page", "weak_spots"]
