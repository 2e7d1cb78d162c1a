"""The area's blueprint; its views add themselves."""

from flask import Blueprint

from app.services.actor import Role

own = Blueprint("own", __name__)

# Who writes and releases questions: in their own school only.
TEACHING = (Role.INSTRUCTOR, Role.SCHOOL)
