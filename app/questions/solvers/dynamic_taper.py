"""Headings between the cardinal points: the allowance tapers evenly from north or south to nothing on east and west."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.packs.spec import Form
from app.physics.angles import round_half_up, shown, whole
from app.physics.card import turn_reading_deg, usable
from app.physics.turning import (
    TurnSide,
    angle_from_north_or_south_deg,
    arc_deg,
    normal_lead_deg,
    rollout_tapered_deg,
    shortest_turn_deg,
    taper,
    turn_side,
    turn_sign,
)
from app.questions.conventions import Conventions
from app.questions.model import NotOffered, Redraw, Solution, Step, Wrong
from app.questions.solvers.dynamic_rollout import turn_from_above
from app.questions.solvers.dynamic_sites import LatitudeSite, heading_circle, latitude_site_of
from app.questions.solvers.registry import solver

LEAST_ARC_DEG, LARGEST_ARC_DEG = 60, 170
CLEAR_OF_ALLOWANCE_DEG = 15
LEAST_SCALED_DEG = 6.5  # below it the reading cannot be told from the heading within the tolerance
NEAR_HALF_WAY_DEG = 5  # so near 45 degrees the taper and its reverse give readings within the tolerance
LEAST_APART_DEG = 4.5  # readings nearer than that cannot stand side by side as options


@dataclass(frozen=True, slots=True)
class Passing:
    """A turn that passes, or ends on, a heading, with the allowance of the rule on north and south."""

    heading_deg: int
    turn: TurnSide
    bank_deg: int
    site: LatitudeSite
    allowance_deg: int

    @property
    def side(self) -> int:
        """+1 to the right, -1 to the left."""
        return turn_sign(self.turn)

    @property
    def from_pole_deg(self) -> int:
        """Angle from the nearer of north and south."""
        return whole(angle_from_north_or_south_deg(self.heading_deg))

    @property
    def share(self) -> float:
        """Share of the allowance, positive in the half of the pole the compass dips to."""
        return taper(self.heading_deg, self.site.hemisphere)

    @property
    def scaled_deg(self) -> float:
        """The allowance on this heading, without its sign."""
        return abs(self.allowance_deg * self.share)

    @property
    def key(self) -> int:
        """The reading by the rule."""
        allowance_deg, half = self.allowance_deg, self.site.hemisphere
        return shown(rollout_tapered_deg(self.heading_deg, self.turn, half, allowance_deg))

    @property
    def forms(self) -> tuple[Form, ...]:
        """Typed alone where the scaled allowance is too near to none or to the whole to leave enough options."""
        apart_deg = min(self.scaled_deg, self.allowance_deg - self.scaled_deg)
        return () if apart_deg > LEAST_APART_DEG else ("typed",)

    def moved(self, behind_deg: float) -> int:
        """Return the heading moved against the turn by a number of degrees."""
        return shown(self.heading_deg - self.side * behind_deg)

    @property
    def model_reading(self) -> int:
        """What the model's settled card shows as the turn passes the heading."""
        return shown(turn_reading_deg(self.heading_deg, self.site.dip_deg, self.side * self.bank_deg))


def passing_of(heading_deg: int, turn: TurnSide, parameters: Mapping[str, Any], conventions: Conventions) -> Passing:
    """Return the turn with the house rule's allowance; not offered where no roll-out rule fits."""
    if conventions.beyond_rules:
        raise NotOffered("", "not-offered-beyond-rules")
    site = latitude_site_of(parameters, conventions)
    by_latitude = conventions.rollout_rule == "latitude"
    allowance_deg = abs(site.latitude_deg) if by_latitude else conventions.allowance_deg
    return Passing(heading_deg, turn, parameters["bank_deg"], site, allowance_deg)


@solver("rollout-any-heading")
def rollout_any_heading(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: target less or plus the tapered allowance; on east and west the normal lead alone."""
    ask, start, target = (parameters[name] for name in ("ask", "start_deg", "target_deg"))
    if (ask == "east-or-west") != (target % 180 == 90):
        raise Redraw("another ask has this heading")
    passing = passing_of(target, turn_side(shortest_turn_deg(start, target)), parameters, conventions)
    arc = arc_deg(start, target, passing.turn)
    if not max(LEAST_ARC_DEG, passing.allowance_deg + CLEAR_OF_ALLOWANCE_DEG) <= arc <= LARGEST_ARC_DEG:
        raise Redraw("the turn must begin outside the allowance")
    given = {"target_deg": target, "start_deg": start, **_given(passing)}
    if ask == "east-or-west":
        return _on_east_or_west(passing, given, conventions)
    key = passing.key
    return Solution(
        key=key,
        given={"ask": ask, **given},
        wrong=_wrong(passing) | {"no-correction": target},
        quantities=_quantities(passing, conventions),
        steps=_steps(passing, key),
        figures=(turn_from_above(given, show_readings=False),),
        verdict_figures=(_verdict_figure(given, key),),
        model_value=passing.model_reading,
        by_rule=True,
        model_notes=_notes("passing", passing),
        forms=passing.forms,
        features=_features(passing, key),
    )


@solver("reading-while-turning")
def reading_while_turning(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the reading as the turn passes a heading, by the even taper printed in the stem."""
    heading = parameters["heading_deg"]
    passing = passing_of(heading, parameters["turn"], parameters, conventions)
    if passing.scaled_deg < LEAST_SCALED_DEG:
        raise Redraw("too near east or west for the tolerance")
    before, after = heading_circle(passing.site, heading, turn=passing.turn)
    key = passing.key
    return Solution(
        key=key,
        given={"heading_deg": heading, **_given(passing)},
        wrong=_wrong(passing) | {"no-error": heading},
        quantities=_quantities(passing, conventions),
        steps=_steps(passing, key),
        figures=before,
        verdict_figures=after,
        model_value=passing.model_reading,
        by_rule=True,
        model_notes=_notes("passing", passing),
        forms=passing.forms,
        features=_features(passing, key),
    )


def _given(passing: Passing) -> dict[str, Any]:
    return {"turn": passing.turn, "bank_deg": passing.bank_deg, "allowance_deg": passing.allowance_deg,
            **passing.site.given}  # fmt: skip


def _verdict_figure(given: Mapping[str, Any], key: int) -> Any:
    readable = usable(given["bank_deg"], given["dip_deg"])
    return turn_from_above(given, show_readings=readable, key_deg=key, yours_deg=None)


def _notes(first: str, passing: Passing) -> tuple[str, ...]:
    return (first,) if usable(passing.bank_deg, passing.site.dip_deg) else (first, "near-critical")


def _wrong(passing: Passing) -> dict[str, Any]:
    """Misconceptions of the taper; on exactly north or south there is nothing to scale."""
    behind = 1 if passing.share > 0 else -1
    # The other half, and the other side for the turn, come to the same number: one slip, whichever it was.
    wrong: dict[str, Any] = {"wrong-side": passing.moved(-behind * passing.scaled_deg)}
    if passing.from_pole_deg == 0:
        return wrong
    wrong["full-allowance"] = passing.moved(behind * passing.allowance_deg)
    if abs(passing.from_pole_deg - 45) > NEAR_HALF_WAY_DEG:
        inverted_deg = passing.allowance_deg * passing.from_pole_deg / 90
        wrong["inverted"] = Wrong(
            passing.moved(behind * inverted_deg), {"inverted_deg": round_half_up(inverted_deg, 1)}
        )
    return wrong


def _quantities(passing: Passing, conventions: Conventions) -> dict[str, Any]:
    near = passing.share > 0
    return {**passing.site.words, "basis": f"basis-{conventions.rollout_rule}", "from_pole_deg": passing.from_pole_deg,
            "scaled_deg": round_half_up(passing.scaled_deg, 1), "rest_deg": 90 - passing.from_pole_deg,
            "lead_deg": whole(normal_lead_deg(passing.bank_deg)), "what": "start-early" if near else "go-past",
            "sense": "behind" if near else "ahead",
            "plain": "plain-behind" if near else "plain-ahead", "model_deg": passing.model_reading}  # fmt: skip


def _features(passing: Passing, key: int) -> dict[str, float]:
    return {"left-turn": float(passing.turn == "left"), "southern": float(passing.site.hemisphere == "south"),
            "crosses-north": float(abs(key - passing.heading_deg) > 180)}  # fmt: skip


def _steps(passing: Passing, key: int) -> tuple[Step | str, ...]:
    heading, near = passing.heading_deg, passing.share > 0
    pole = 180 if 90 < heading < 270 else 360 if heading >= 270 else 0
    apart = Step("from-pole", {"larger_deg": max(pole, heading), "smaller_deg": min(pole, heading)})
    less = (passing.turn == "right") == near
    return ("half-near" if near else "half-far", apart, "scale",
            Step(f"{'less' if less else 'more'}-{passing.turn}", {"key": key}))  # fmt: skip


def _on_east_or_west(passing: Passing, given: Mapping[str, Any], conventions: Conventions) -> Solution:
    lead_deg = whole(normal_lead_deg(passing.bank_deg))
    key = passing.moved(lead_deg)
    model_reading = shown(turn_reading_deg(key, passing.site.dip_deg, passing.side * passing.bank_deg))
    return Solution(
        key=key,
        given={"ask": "east-or-west", **given},
        wrong={
            "no-lead": passing.heading_deg,
            "lead-late": passing.moved(-lead_deg),
            "full-early": passing.moved(passing.allowance_deg + lead_deg),
            "full-late": passing.moved(lead_deg - passing.allowance_deg),
        },
        quantities=_quantities(passing, conventions) | {"key": key, "model_deg": model_reading},
        steps=("side-on", Step(f"lead-{passing.turn}", {"key": key})),
        figures=(turn_from_above(given, show_readings=False),),
        verdict_figures=(_verdict_figure(given, key),),
        model_value=model_reading,
        by_rule=True,
        model_notes=_notes("leaving-the-axis", passing),
        features=_features(passing, key),
    )
