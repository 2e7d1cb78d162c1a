"""The area's blueprint; its views add themselves."""

from flask import Blueprint

from app.services.actor import Role

instructor = Blueprint("instructor", __name__)

# Who may look after classes: instructors after their own, the school after all of its own.
TEACHING = (Role.INSTRUCTOR, Role.SCHOOL)
