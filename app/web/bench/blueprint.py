"""The area's blueprint; its views add themselves."""

from flask import Blueprint

from app.questions.numbers import heading

bench = Blueprint("bench", __name__)
bench.add_app_template_filter(heading, "three")
