"""What the compass first shows as a turn begins: the sign of the tilted-card model, never its size."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import cos_deg, whole
from app.physics.card import TurnSense, lag_deg, turn_sense, usable
from app.physics.turning import turn_sign
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.dynamic_sites import Site, heading_circle, site_of
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

ONE_TURN = ("behind", "ahead", "agrees")
BOTH_WAYS = ("behind-both", "ahead-both", "agrees-both", "behind-right", "behind-left")
STARTS_DEG = (30, 45, 60, 90, 120, 135, 150, 180, 210, 225, 240, 270, 300, 315, 330, 360)
SORTED = 5
OTHER_SENSE: dict[TurnSense, TurnSense] = {"behind": "ahead", "ahead": "behind", "agrees": "agrees"}


def start_sense(start_deg: float, site: Site, bank_deg: float) -> TurnSense:
    """Whether the reading falls behind, runs ahead or agrees as a turn leaves a heading, the same to either side."""
    return "agrees" if site.hemisphere == "none" else turn_sense(start_deg, site.dip_deg, bank_deg)


@solver("turn-start-indication")
def turn_start_indication(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: behind, ahead or in step, in one turn or in both from the same heading, or from each of several."""
    ask, start, turn, bank = (parameters[name] for name in ("ask", "start_deg", "turn", "bank_deg"))
    site = site_of(parameters, conventions)
    if not usable(bank, site.dip_deg):
        raise Redraw("the bank is too near the critical one")
    if ask == "sort":
        return _sorted_by_sense(few_of(STARTS_DEG, SORTED, parameters["shuffle"]), site, bank)
    sense = start_sense(start, site, turn_sign(turn) * bank)
    both = ask == "both-ways"
    before, after = heading_circle(site, start, turn=turn)
    ending = "-both" if both else ""
    right_deg, left_deg = (whole(abs(lag_deg(start, site.dip_deg, side * bank))) for side in (1, -1))
    note = "level" if site.hemisphere == "none" else "side-on" if sense == "agrees" else "sizes" if both else "size"
    return Solution(
        key=sense + ending,
        given={"ask": ask, "start_deg": start, "bank_deg": bank, **({} if both else {"turn": turn}), **site.given},
        options=BOTH_WAYS if both else ONE_TURN,
        wrong={name: value + ending for name, value in _wrong(start, site, sense).items()} | (_sides() if both else {}),
        quantities={**site.words, "right_deg": right_deg, "left_deg": left_deg,
                    "off_deg": right_deg if turn == "right" else left_deg, "sense": f"sense-{sense}",
                    "half": "half-north" if cos_deg(start) > 0 else "half-south", "turn": turn},
        steps=_steps(both, turn, sense, site),
        figures=(FigureCall("heading-circle", {"heading_deg": start}),) if both else before,
        verdict_figures=after,
        model_notes=(note,),
        features={"between-points": float(start % 90 != 0), "southern": float(site.hemisphere == "south"),
                  "left-turn": float(not both and turn == "left"), "level": float(site.hemisphere == "none")},
    )  # fmt: skip


def _wrong(start: int, site: Site, sense: TurnSense) -> dict[str, str]:
    if sense != "agrees":
        nothing = "confuses-speed" if start % 90 == 0 else "only-north-south"
        return {"wrong-half": OTHER_SENSE[sense], nothing: "agrees"}
    if site.hemisphere == "none" and cos_deg(start) != 0:
        northern = "behind" if cos_deg(start) > 0 else "ahead"
        return {"northern-rule": northern, "southern-rule": "ahead" if northern == "behind" else "behind"}
    return {"always-behind": "behind", "side-on-ahead": "ahead"}


def _sorted_by_sense(starts: tuple[int, ...], site: Site, bank: int) -> Solution:
    """Ask it of several headings, which may be left to either side."""
    senses = {start: start_sense(start, site, bank) for start in starts}
    if len(set(senses.values())) < 2:
        raise Redraw("all alike tell nothing apart")
    key = {f"from-{start:03d}": sense for start, sense in senses.items()}
    slips = {(f"from-{start:03d}", value): name for start, sense in senses.items()
             for name, value in _wrong(start, site, sense).items()}  # fmt: skip
    return Solution(
        key=key,
        given={"ask": "sort", "bank_deg": bank, **site.given},
        options=tuple(key),
        slips=slips,
        quantities=dict(site.words),
        steps=("bank-either", f"{site.hemisphere}-end-inside", f"sort-{site.hemisphere}"),
        model_notes=("side-on",) if "agrees" in key.values() else (),
        features={"between-points": 1.0, "southern": float(site.hemisphere == "south"), "left-turn": 0.0, "level": 0.0},
    )


def _sides() -> dict[str, str]:
    return {"side-right": "behind-right", "side-left": "behind-left"}


def _steps(both: bool, turn: str, sense: TurnSense, site: Site) -> tuple[str, ...]:  # noqa: FBT001 - which ask it is
    tilt = "bank-either" if both else f"bank-{turn}"
    last = ("either-side",) if both else ()
    if site.hemisphere == "none":
        return (tilt, "no-dip", *last)
    if sense == "agrees":
        return (tilt, "along-the-needle", *last)
    return (tilt, f"{site.hemisphere}-end-inside", f"half-{sense}", *last)
