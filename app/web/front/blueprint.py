"""The area's blueprint; its views add themselves."""

from flask import Blueprint

front = Blueprint("front", __name__)
