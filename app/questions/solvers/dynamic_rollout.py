"""Rolling out on north or south by the compass: the handbook's rule, and what holds where no rule does."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import shown, whole
from app.physics.card import critical_bank_deg, turn_reading_deg, usable
from app.physics.turning import (
    HALF_RATE_DEG_S,
    RATE_ONE_DEG_S,
    Hemisphere,
    TurnSide,
    arc_deg,
    normal_lead_deg,
    rollout_tapered_deg,
    shortest_turn_deg,
    turn_seconds,
    turn_side,
    turn_sign,
)
from app.questions.conventions import ROLLOUT_LIMIT_DIP_DEG, WEAK_HORIZONTAL_NT, Conventions
from app.questions.model import NotOffered, Redraw, Solution, Step, Wrong
from app.questions.solvers.dynamic_sites import LatitudeSite, Site, latitude_site_of
from app.questions.solvers.registry import solver

LEAST_ARC_DEG, LARGEST_ARC_DEG = 90, 120
OTHER_HEMISPHERE: dict[Hemisphere, Hemisphere] = {"north": "south", "south": "north", "none": "none"}
OTHER_TURN: dict[TurnSide, TurnSide] = {"right": "left", "left": "right"}


@dataclass(frozen=True, slots=True)
class Rollout:
    """A turn onto north or south and the rule for it; with a fixed allowance no lead is added to it."""

    start_deg: int
    target_deg: int
    bank_deg: int
    site: Site
    allowance_deg: int
    holds_lead: bool

    @property
    def turn(self) -> TurnSide:
        """The short way round."""
        return turn_side(shortest_turn_deg(self.start_deg, self.target_deg))

    @property
    def normal_lead(self) -> int:
        """Half the bank."""
        return whole(normal_lead_deg(self.bank_deg))

    @property
    def lead(self) -> int:
        """What the rule adds for rolling out."""
        return 0 if self.holds_lead else self.normal_lead

    @property
    def near(self) -> bool:
        """Whether the turn goes to the pole that the compass dips to."""
        return (self.target_deg == 180) == (self.site.hemisphere == "south")

    @property
    def short_by(self) -> int:
        """How far short of the target, in the direction of the turn, the roll-out starts; negative past it."""
        return (self.allowance_deg if self.near else -self.allowance_deg) + self.lead

    def reading(
        self, turn: TurnSide | None = None, hemisphere: Hemisphere | None = None, lead_deg: float | None = None
    ) -> int:
        """Return the reading by the rule, or by the rule with something in it changed."""
        lead = self.lead if lead_deg is None else lead_deg
        side, half = turn or self.turn, hemisphere or self.site.hemisphere
        return shown(rollout_tapered_deg(self.target_deg, side, half, self.allowance_deg, lead))

    @property
    def model_reading(self) -> int:
        """What the model's settled card shows at half the bank before the target."""
        side = turn_sign(self.turn)
        real_deg = self.target_deg - side * self.normal_lead
        return shown(turn_reading_deg(real_deg, self.site.dip_deg, side * self.bank_deg))


@solver("rollout-north-south")
def rollout_north_south(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the reading by the school's rule; beyond the rules what holds instead: the clock, and a settled compass."""
    ask, start, target = (parameters[name] for name in ("ask", "start_deg", "target_deg"))
    if (ask == "roll-out") == conventions.beyond_rules:
        raise Redraw("another ask suits this home place")
    turn = turn_side(shortest_turn_deg(start, target))
    if not LEAST_ARC_DEG <= arc_deg(start, target, turn) <= LARGEST_ARC_DEG:
        raise Redraw("this turn is too short for the rule")
    if ask == "by-clock":
        return _by_clock(start, target, turn, parameters["rate_deg_s"], conventions)
    if ask == "not-usable":
        return _not_usable(start, target, turn, parameters["bank_deg"], conventions)
    site = latitude_site_of(parameters, conventions)
    by_allowance = conventions.rollout_rule == "allowance"
    amount = conventions.allowance_deg if by_allowance else abs(site.latitude_deg)
    return _by_rule(Rollout(start, target, parameters["bank_deg"], site, amount, by_allowance), site)


def _by_rule(rollout: Rollout, site: LatitudeSite) -> Solution:
    given = {"start_deg": rollout.start_deg, "target_deg": rollout.target_deg, "turn": rollout.turn,
             "bank_deg": rollout.bank_deg, **site.given}  # fmt: skip
    input_of_rule = (
        {"allowance_deg": rollout.allowance_deg} if rollout.holds_lead else {"latitude_deg": site.latitude_deg}
    )
    key = rollout.reading()
    readable = usable(rollout.bank_deg, site.dip_deg)
    return Solution(
        key=key,
        given={"ask": "roll-out", **given, **input_of_rule},
        figures=(turn_from_above(given, show_readings=False),),
        verdict_figures=(turn_from_above(given, show_readings=readable, key_deg=key, yours_deg=None),),
        wrong=_wrong(rollout),
        quantities={**site.words, "lead_deg": rollout.normal_lead, "amount_deg": abs(rollout.short_by),
                    "rule_deg": rollout.allowance_deg, "model_deg": rollout.model_reading,
                    "more_deg": rollout.allowance_deg + rollout.normal_lead,
                    "less_deg": rollout.allowance_deg - rollout.normal_lead,
                    "what": "start-early" if rollout.near else "go-past"},
        steps=_steps(rollout, key),
        model_value=rollout.model_reading,
        by_rule=True,
        model_notes=("moment",) if readable else ("moment", "near-critical"),
        scene="allowance" if rollout.holds_lead else "latitude",
        features={"left-turn": float(rollout.turn == "left"), "southern": float(site.hemisphere == "south"),
                  "lead-apart": float(not rollout.holds_lead), "goes-past": float(not rollout.near)},
    )  # fmt: skip


def turn_from_above(given: Mapping[str, Any], **more: Any) -> FigureCall:
    """Call the figure of a turn; the card's readings are drawn in it only where the bank leaves it usable."""
    shown_of_turn = {name: given[name] for name in ("start_deg", "target_deg", "turn", "dip_deg", "bank_deg")}
    return FigureCall("turn-from-above", {**shown_of_turn, **more})


def _wrong(rollout: Rollout) -> dict[str, Any]:
    wrong: dict[str, Any] = {
        "no-lead": rollout.target_deg,
        "swap": rollout.reading(hemisphere=OTHER_HEMISPHERE[rollout.site.hemisphere]),
        "turn-dir": rollout.reading(turn=OTHER_TURN[rollout.turn]),
    }
    normal_lead_alone = shown(rollout.target_deg - turn_sign(rollout.turn) * rollout.normal_lead)
    if rollout.holds_lead:
        return wrong | {
            "bank-twice": rollout.reading(lead_deg=rollout.normal_lead),
            "normal-lead-only": normal_lead_alone,
        }
    no_lead = rollout.reading(lead_deg=0)
    return wrong | {
        "bank-sign-near" if rollout.near else "bank-sign-far": shown(no_lead + turn_sign(rollout.turn) * rollout.lead),
        "no-bank": no_lead,
        "normal-lead-only": Wrong(normal_lead_alone, option=False),
    }


def _steps(rollout: Rollout, key: int) -> tuple[Step | str, ...]:
    side = "near" if rollout.near else "far"
    size = "holds-lead" if rollout.holds_lead else f"latitude-{side}"
    adds = (rollout.turn == "right") != rollout.near
    from_zero = adds and rollout.target_deg == 360
    line = f"{'short' if rollout.near else 'past'}-{rollout.turn}"
    apply = Step(line, {"from_deg": 0 if from_zero else rollout.target_deg, "key": key})
    return (f"side-{side}", size, *(("from-zero",) if from_zero else ()), apply)


def _beyond(start: int, target: int, turn: TurnSide, conventions: Conventions) -> dict[str, Any]:
    if abs(conventions.dip_deg) <= ROLLOUT_LIMIT_DIP_DEG:
        raise NotOffered("", "not-offered-beyond-rules")  # a weak field that is not steep: no place on earth has it
    site = Site(at_home=True, dip_deg=whole(conventions.dip_deg))
    return {"start_deg": start, "target_deg": target, "turn": turn, **site.given}


def _not_usable(start: int, target: int, turn: TurnSide, bank: int, conventions: Conventions) -> Solution:
    given = _beyond(start, target, turn, conventions)
    critical = critical_bank_deg(given["dip_deg"])
    wrong = ("rule-holds", "error-gone", "one-pole-only", "steeper-bank", "twice-allowance")
    return Solution(
        key="settle-first",
        given={"ask": "not-usable", "bank_deg": bank, **given},
        wrong={name: name for name in wrong},
        quantities=_beyond_words(given, conventions) | {"critical_deg": whole(critical)},
        steps=("critical", "over-critical" if bank > critical else "close-to-critical", "settle"),
        model_notes=(_field_note(conventions),),
        features={"left-turn": float(turn == "left"), "southern": float(given["dip_deg"] < 0)},
    )


def _by_clock(start: int, target: int, turn: TurnSide, rate: float, conventions: Conventions) -> Solution:
    given = _beyond(start, target, turn, conventions)
    arc = whole(arc_deg(start, target, turn))
    if arc % RATE_ONE_DEG_S:
        raise Redraw("no whole number of seconds")
    key = whole(turn_seconds(arc, rate))
    other_rate = HALF_RATE_DEG_S if rate == RATE_ONE_DEG_S else RATE_ONE_DEG_S
    from_zero = turn == "left" and target == 360
    larger, smaller = (target, start) if turn == "right" else (start, target % 360)
    return Solution(
        key=key,
        given={"ask": "by-clock", "rate_deg_s": rate, **given},
        wrong={
            "other-rate": Wrong(whole(turn_seconds(arc, other_rate)), {"other_rate_deg_s": other_rate}),
            "degree-a-second": arc,
            "long-way": Wrong(whole(turn_seconds(360 - arc, rate)), {"long_deg": 360 - arc}),
        },
        quantities=_beyond_words(given, conventions) | {"arc_deg": arc, "arc_s": key},
        steps=(*(("from-zero",) if from_zero else ()), Step("arc", {"larger_deg": larger, "smaller_deg": smaller}),
               "seconds", "settle"),
        model_notes=(_field_note(conventions),),
        features={"left-turn": float(turn == "left"), "southern": float(given["dip_deg"] < 0)},
    )  # fmt: skip


def _beyond_words(given: Mapping[str, Any], conventions: Conventions) -> dict[str, Any]:
    dips_north = given["dip_deg"] > 0
    return {"where": "where-home", "dip_end": f"dip-{given['hemisphere']}",
            "near_pole": "north" if dips_north else "south", "far_pole": "south" if dips_north else "north",
            "horizontal_nt": conventions.horizontal_nt}  # fmt: skip


def _field_note(conventions: Conventions) -> str:
    return "weak-field" if conventions.horizontal_nt < WEAK_HORIZONTAL_NT else "steep-field"
