"""The area's blueprint; its views add themselves."""

from flask import Blueprint

bench = Blueprint("bench", __name__)
