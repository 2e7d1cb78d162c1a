"""The area's blueprint; its views add themselves."""

from flask import Blueprint

from app.services.actor import Role

student = Blueprint("student", __name__)

# Who may practise: everybody, in their own drills only.
PRACTISING = tuple(Role)
