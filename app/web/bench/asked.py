"""The bench's form as an address fills it; what the address does not say: the home place and the defaults."""

from flask import request
from werkzeug.datastructures import MultiDict

from app.questions.conventions import Conventions
from app.services.places import list_places
from app.web.bench.bench_form import TYPED, BenchForm
from app.web.current import actor, language


def asked_form() -> BenchForm:
    """Fill the form."""
    places = tuple(list_places(language()))
    home = _home_fields(actor().conventions)
    given = {name: value for name, value in request.values.items() if name in BenchForm.__dict__}
    form = BenchForm(formdata=MultiDict(given if "place_id" in given else home | given))
    if not form.when.raw_data:
        form.when.data = home["when"]
    form.offer_places(places)
    return form


def _home_fields(conventions: Conventions) -> dict[str, str]:
    listed = next((place for place in list_places("en") if place.name == conventions.place), None)
    if listed:
        return {"place_id": listed.id, "when": conventions.date}
    where = {"latitude_deg": str(conventions.latitude_deg), "longitude_deg": str(conventions.longitude_deg)}
    return {"place_id": TYPED, **where, "when": conventions.date}
