"""The kinds of altitude: which is which, which of two is greater, and when two of them agree."""

from collections.abc import Mapping
from typing import Any

from app.physics.angles import whole
from app.physics.pressure import STANDARD_SETTING_INHG
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

SORTED, PAIRS_SORTED = 5, 3
STANDARD_C = 15
LAPSE_C = 2
# Each kind with what is taken for it, and the misconception behind that.
CONFUSED = {
    "indicated": {
        "indicated-is-true": "true", "standard-always-set": "pressure", "altimeter-feels-ground": "absolute",
    },
    "true": {
        "indicated-is-true": "indicated", "sea-and-ground": "absolute", "density-as-height": "density",
        "standard-air-always": "pressure",
    },
    "pressure": {
        "standard-always-set": "indicated", "forgets-temperature": "density", "standard-air-always": "true",
    },
    "density": {
        "forgets-temperature": "pressure", "density-as-height": "true", "altimeter-feels-warmth": "indicated",
    },
    "absolute": {
        "sea-and-ground": "true", "altimeter-feels-ground": "indicated", "density-as-height": "density",
    },
}  # fmt: skip
# What is described, by the kind it describes: three ways to say each.
DESCRIBED = {f"{kind}-{way}": kind for kind in CONFUSED for way in ("is", "use", "when")}
# Where two kinds agree: the pair, and the condition that makes them.
AGREE = {
    "pressure-indicated": "standard-in-window",
    "density-pressure": "standard-temperature",
    "absolute-true": "over-the-sea",
    "true-indicated": "on-the-apron",
}
CONDITION_CHOSEN = {
    "standard-in-window": "window-settles-all",
    "standard-temperature": "temperature-settles-all",
    "over-the-sea": "sea-settles-all",
    "on-the-apron": "apron-settles-all",
}


@solver("altitude-kinds")
def altitude_kinds(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the kind of altitude, of one or of several, its definition, the greater of two, or what makes two agree."""
    if parameters["ask"] != "greater":
        return _in_words(parameters)
    pair = parameters["comparison"]
    if pair == "pressure-indicated":
        if conventions.pressure_unit != "inhg":
            raise Redraw("the school uses the other pressure unit")
        return _by_setting(parameters["indicated_ft"], parameters["setting_hundredths"])
    if pair == "absolute-true":
        raise Redraw("these two differ by the ground alone")
    return _by_temperature(pair, parameters["indicated_ft"], parameters["isa_deviation_c"])


def _in_words(parameters: Mapping[str, Any]) -> Solution:
    ask, shuffle = parameters["ask"], parameters["shuffle"]
    if ask == "sort":
        return _sorted_by_kind(few_of(tuple(DESCRIBED), SORTED, shuffle))
    if ask == "agree-sort":
        return _pairs_sorted(few_of(tuple(AGREE), PAIRS_SORTED, shuffle))
    if ask == "name":
        return _named(parameters["object"])
    return _defined(parameters["altitude_kind"]) if ask == "definition" else _agreeing(parameters["comparison"])


def _named(described: str) -> Solution:
    kind = DESCRIBED[described]
    return Solution(
        key=kind,
        given={"ask": "name", "object": described},
        wrong=dict(CONFUSED[kind]),
        steps=(f"means-{kind}", f"serves-{kind}"),
        features={"comparing": -1.0},
    )


def _sorted_by_kind(described: tuple[str, ...]) -> Solution:
    key = {each: DESCRIBED[each] for each in described}
    slips = {(each, taken): name for each, kind in key.items() for name, taken in CONFUSED[kind].items()}
    return Solution(
        key=key,
        given={"ask": "sort"},
        options=described,
        slips=slips,
        steps=tuple(f"means-{kind}" for kind in dict.fromkeys(key.values())),
        features={"comparing": -1.0},
    )


def _defined(kind: str) -> Solution:
    return Solution(
        key=f"def-{kind}",
        given={"ask": "definition", "altitude_kind": kind},
        wrong={name: f"def-{other}" for name, other in CONFUSED[kind].items()},
        steps=(f"means-{kind}", f"serves-{kind}"),
        features={"comparing": -1.0},
    )


def _agreeing(pair: str) -> Solution:
    return Solution(
        key=AGREE[pair],
        given={"ask": "agree", "comparison": pair},
        wrong={CONDITION_CHOSEN[each]: each for each in AGREE.values() if each != AGREE[pair]},
        steps=(f"agree-{pair}",),
        features={"comparing": 0.0},
    )


def _pairs_sorted(pairs: tuple[str, ...]) -> Solution:
    return Solution(
        key={pair: AGREE[pair] for pair in pairs},
        given={"ask": "agree-sort"},
        options=pairs,
        slips={
            (pair, condition): belief
            for pair in pairs
            for condition, belief in CONDITION_CHOSEN.items()
            if condition != AGREE[pair]
        },
        steps=tuple(f"agree-{pair}" for pair in pairs),
        features={"comparing": 0.0},
    )


def _by_setting(indicated: int, hundredths: int) -> Solution:
    gap = whole(STANDARD_SETTING_INHG * 100) - hundredths
    given = {"ask": "greater", "comparison": "pressure-indicated", "indicated_ft": indicated,
             "setting_inhg": hundredths / 100}  # fmt: skip
    quantities = {"gap_inhg": gap / 100, "standard_inhg": STANDARD_SETTING_INHG}
    return _compared(given, ("pressure", "indicated"), gap, {}, (quantities, "gap-setting"))


def _by_temperature(pair: str, height: int, deviation: int) -> Solution:
    standard = STANDARD_C - LAPSE_C * height // 1000  # whole: heights come in steps of 500
    oat = standard + deviation
    density = pair == "density-pressure"
    given = {"ask": "greater", "comparison": pair, "oat_c": oat,
             "pressure_altitude_ft" if density else "indicated_ft": height}  # fmt: skip
    kinds = ("density", "pressure") if density else ("true", "indicated")
    by_fifteen = kinds[0] if oat > STANDARD_C else kinds[1] if oat < STANDARD_C else "same"
    wrong = {"fifteen-everywhere": by_fifteen} if by_fifteen != _greater(kinds, deviation) else {}
    quantities = {"height_ft": height, "standard_c": standard, "warmer_c": deviation}
    return _compared(given, kinds, deviation, wrong, (quantities, "gap-temperature"))


def _greater(kinds: tuple[str, str], sign: int) -> str:
    return kinds[0] if sign > 0 else kinds[1] if sign < 0 else "same"


def _compared(
    given: dict[str, Any], kinds: tuple[str, str], sign: int, wrong: dict[str, str], shown: tuple[dict[str, Any], str]
) -> Solution:
    """Compare two kinds: the first is the greater where `sign` is positive, and both agree where it is zero."""
    key, pair = _greater(kinds, sign), given["comparison"]
    apart = {"turned-round": _greater(kinds, -sign), "nothing-moves": "same"}
    others = apart if sign else {"sees-more": kinds[0], "sees-less": kinds[1]}
    return Solution(
        key=key,
        given=given,
        wrong=wrong | others,
        quantities=shown[0] | {"rule": f"rule-{pair}", "found": key},
        options=(*kinds, "same"),
        steps=(shown[1], f"rule-{pair}", "so"),
        scene=pair,
        features={"comparing": 1.0},
    )
