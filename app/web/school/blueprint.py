"""The area's blueprint; its views add themselves."""

from flask import Blueprint

school = Blueprint("school", __name__)
