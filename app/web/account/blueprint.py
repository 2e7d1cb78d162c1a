"""The area's blueprint; its views add themselves."""

from flask import Blueprint

from app.services.actor import Role

account = Blueprint("account", __name__)

# Whoever has an account.
MEMBERS = (Role.STUDENT, Role.INSTRUCTOR, Role.SCHOOL)
