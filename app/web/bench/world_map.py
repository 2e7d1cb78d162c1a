"""The map on which one chooses a place, and its layers as a file that caches may keep."""

import gzip
from datetime import date

from flask import Response, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services.bench_map import sample_places, world_map
from app.services.errors import Invalid
from app.web.access import EVERYBODY, allow
from app.web.bench.asked import asked_form
from app.web.bench.bench_form import TYPED, BenchForm
from app.web.bench.blueprint import bench
from app.web.current import actor, language
from app.web.errors import STATUS
from app.web.forms import cut

DAY_KEPT = "public, max-age=604800"  # the address names the day: what it leads to never changes
PLACE_FIELDS = frozenset({"place_id", "latitude_deg", "longitude_deg", "dip_deg"})


@bench.get("/bench/map")
@allow(*EVERYBODY)
def show_map() -> ResponseReturnValue:
    """Show the map for the day of the address; what else the address says goes on to the bench."""
    form = asked_form()
    day = date.fromisoformat(form.when.data) if form.validate() else None
    try:
        samples = sample_places(day, language()) if day else ()
    except Invalid as refusal:
        form[refusal.field].errors, samples = [refusal.message], ()
    layers = url_for("bench.send_map", day=day, language=language()) if samples else ""
    flown = {name: value for name, value in (form.query() if day else {}).items() if name not in PLACE_FIELDS}
    page = render_template(
        "bench/show_map.html", form=form, samples=samples, layers=layers, flown=flown, cross=_cross(form)
    )
    return page, 200 if samples else STATUS[Invalid]


@bench.get("/bench/map.svg")
@allow(*EVERYBODY)
def send_map() -> ResponseReturnValue:
    """Send the map's layers for a day, with the lines' names in a language."""
    day, french = request.args.get("day", ""), request.args.get("language") == "fr"
    try:
        drawn = world_map(date.fromisoformat(day), "fr" if french else "en").encode()
    except ValueError as error:
        raise Invalid(f"“{cut(day)}” is not a date. Accepted: year-month-day, such as 2026-09-01.", "when") from error
    response = Response(drawn, mimetype="image/svg+xml")
    response.vary.add("Accept-Encoding")
    if request.accept_encodings["gzip"] > 0:
        response.set_data(gzip.compress(drawn, 6, mtime=0))
        response.headers["Content-Encoding"] = "gzip"
    response.headers["Cache-Control"] = DAY_KEPT
    return response


def _cross(form: BenchForm) -> tuple[float, float]:
    """Return where the crosshair stands at first: at the coordinates given, else at the home place."""
    latitude_deg, longitude_deg = form.latitude_deg.data, form.longitude_deg.data
    if form.place_id.data == TYPED and latitude_deg is not None and longitude_deg is not None:
        return latitude_deg, longitude_deg
    home = actor().conventions
    return home.latitude_deg, home.longitude_deg
