"""The area's blueprint; its views add themselves."""

from flask import Blueprint

from app.services.actor import Role

sets = Blueprint("sets", __name__)

# Who puts sets together: in their own school only.
TEACHING = (Role.INSTRUCTOR, Role.SCHOOL)
