"""The bench's page, the track it draws, and the comparison of three places."""

import gzip
import json
from dataclasses import dataclass

from flask import Response, make_response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services.bench import Flight, Moment, fly_bench, moment_within
from app.services.bench_field import field_of
from app.services.bench_links import ask_bench
from app.services.errors import Invalid
from app.services.homes import HomeWish, conventions_for
from app.web.access import EVERYBODY, allow
from app.web.bench.asked import asked_form
from app.web.bench.bench_form import BenchForm
from app.web.bench.blueprint import bench
from app.web.bench.drawings import draw_plots, draw_stills
from app.web.current import actor_with_visit, backend, language, library, now, uow
from app.web.errors import STATUS
from app.web.forms import mark_refused

TRACK_KEPT = "public, max-age=86400"
COMPARED = ("otterlea", "garua-bench", "toetoe-head")  # north, near the magnetic equator, south


@dataclass(frozen=True, slots=True)
class Shown:
    """A flight with the moment looked at, if there is anything to look at."""

    flight: Flight
    at_s: float
    moment: Moment | None


@bench.get("/bench")
@allow(*EVERYBODY)
def show_bench() -> ResponseReturnValue:
    """Fly what the address says and show it at one moment; a page without an address flies at the home place."""
    form = asked_form()
    return _page(form, _shown(form))


@bench.get("/bench/track.json")
@allow(*EVERYBODY)
def send_track() -> ResponseReturnValue:
    """Send the track as numbers; the same for everybody, so caches may keep it."""
    form = asked_form()
    shown = _shown(form)
    body = json.dumps(shown.flight.as_json() if shown else form.errors, separators=(",", ":"), default=str).encode()
    response = make_response(Response(body, mimetype="application/json"), 200 if shown else STATUS[Invalid])
    response.vary.add("Accept-Encoding")
    if request.accept_encodings["gzip"] > 0:
        response.set_data(gzip.compress(body, 6, mtime=0))
        response.headers["Content-Encoding"] = "gzip"
    if shown:
        response.headers["Cache-Control"] = TRACK_KEPT
    return response


@bench.get("/bench/compare")
@allow(*EVERYBODY)
def compare_places() -> ResponseReturnValue:
    """Fly the same manoeuvre in the north, near the magnetic equator and in the south, side by side."""
    form = asked_form()
    if not _shown(form):
        return _page(form, None)
    home, _ = form.home()
    flights = []
    for place_id in COMPARED:
        flight = fly_bench(form.wish(), field_of(HomeWish(home.when, place_id), None, language()), language())
        plots = draw_plots(flight, None, language()) if flight.motion else ()
        flights.append((flight, plots, {**form.query(), "place_id": place_id}))
    return render_template("bench/compare_places.html", flights=flights, query=form.query())


@bench.post("/bench/questions")
@allow(*EVERYBODY)
def ask_about_it() -> ResponseReturnValue:
    """Start a drill of questions like the flight, at its place; in a field of one's own, at the home place."""
    form = asked_form()
    if not _shown(form):
        return _page(form, None)
    home, dip_deg = form.home()
    visitor = actor_with_visit()
    conventions = visitor.conventions if dip_deg is not None else conventions_for(home, language())
    asked = (form.wish(), conventions, backend().draw_seed())
    drill_id = ask_bench(uow(), visitor, library(), asked, now())
    return redirect(url_for("student.show_question", drill_id=drill_id, position=1), 303)


def _page(form: BenchForm, shown: Shown | None) -> ResponseReturnValue:
    page = render_template(
        "bench/show_bench.html",
        form=form,
        shown=shown,
        query=form.query() if shown else {},
        stills=draw_stills(shown.flight, shown.moment, language()) if shown and shown.moment else (),
        drawings=draw_plots(shown.flight, shown.at_s, language()) if shown and shown.moment else (),
        projector=request.args.get("view") == "projector",
    )
    return page, 200 if shown else STATUS[Invalid]


def _shown(form: BenchForm) -> Shown | None:
    """Fly the form; None when it cannot be accepted, and the form then says why."""
    if not form.validate():
        return None
    try:
        flight = fly_bench(form.wish(), field_of(*form.home(), language()), language())
        at_s = _looked_at(form, flight)
    except Invalid as refusal:
        mark_refused(form, refusal)
        return None
    return Shown(flight, at_s, flight.moment(at_s) if flight.motion else None)


def _looked_at(form: BenchForm, flight: Flight) -> float:
    """Return the moment looked at; a link from a question says which heading the aircraft passes then."""
    passing = request.args.get("passing", type=int)
    if passing is not None and form.at.data is None:
        return flight.when_passing(passing)
    return moment_within(flight, form.at.data, language())
