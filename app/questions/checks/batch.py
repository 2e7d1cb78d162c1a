"""Rules over a batch of draws: where the key stands, what a guesser gets, how varied the items are."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import erfc, exp, pi, sqrt

from app.packs.fixed import SOLVER
from app.packs.library import Library
from app.packs.spec import Family
from app.questions.checks.findings import Findings
from app.questions.model import OPTION_FORMS, Item
from app.questions.values import is_numeric
from app.questions.wording import word_item

LEAST_CHI_SQUARE_P = 0.001
STANDARD_ERRORS = 4
LEAST_DISTINCT = 0.9
COUNTED_FOR_DISTINCT = 500  # of any number of draws: more of them must repeat more
FEW_ITEMS = 60

Strategy = Callable[[Item, Sequence[str]], int]


@dataclass(frozen=True, slots=True)
class BatchFigures:
    """What a batch showed: draws lost to colliding options, distinct parameter sets, key places, best guess."""

    lost_share: float
    distinct_share: float
    key_places: tuple[int, ...]
    key_place_p: float
    best_strategy: str
    best_share: float


def check_batch(library: Library, items: Sequence[Item], findings: Findings) -> BatchFigures:
    """Judge a batch of items of one family."""
    attempts = sum(item.lost + 1 for item in items)
    counted = items[:COUNTED_FOR_DISTINCT]
    distinct = len({_content(item) for item in counted}) / len(counted)
    _check_distinct(library.family(items[0].family), distinct, findings)
    chosen = [item for item in items if item.form in OPTION_FORMS]
    places, p = _key_places(chosen)
    if p < LEAST_CHI_SQUARE_P:
        findings.error(
            "key-place", f"the key's place is uneven: {places} (p = {p:.1e})", "Balance what lies above and below."
        )
    name, share = _check_strategies(library, chosen, findings)
    lost = sum(item.lost for item in items) / attempts
    return BatchFigures(lost, distinct, places, p, name, share)


def _check_distinct(family: Family, distinct: float, findings: Findings) -> None:
    """Warn of a family that repeats itself, unless it is hand-written or says why it must."""
    if distinct < LEAST_DISTINCT and family.solver != SOLVER and not family.few:
        findings.warn("few-distinct", f"{distinct:.0%} of the draws differ", "Widen the parameters, or say why in few.")


def _content(item: Item) -> str:
    """Return what makes an item: its numbers, and the things to tick, order or sort, in whatever order."""
    listed = sorted(str(option.value) for option in item.options) if item.form not in OPTION_FORMS else []
    return repr((sorted(item.parameters.items(), key=str), listed))


def _key_places(items: Sequence[Item]) -> tuple[tuple[int, ...], float]:
    """Return how often the key stood at each place, and the chi-square p, over the most frequent option count."""
    if not items:
        return (), 1.0
    size = Counter(len(item.options) for item in items).most_common(1)[0][0]
    same = [item for item in items if len(item.options) == size]
    counts = [0] * size
    for item in same:
        counts[next(i for i, option in enumerate(item.options) if option.correct)] += 1
    expected = len(same) / size
    chi_square = sum((count - expected) ** 2 / expected for count in counts)
    return tuple(counts), chi_square_tail(chi_square, size - 1)


def chi_square_tail(x: float, degrees: int) -> float:
    """Return P(chi-square > x) for 1 to 4 degrees of freedom, in closed form."""
    if degrees == 1:
        return erfc(sqrt(x / 2))
    if degrees == 2:
        return exp(-x / 2)
    if degrees == 3:
        return erfc(sqrt(x / 2)) + sqrt(2 * x / pi) * exp(-x / 2)
    return exp(-x / 2) * (1 + x / 2)


def _check_strategies(library: Library, items: Sequence[Item], findings: Findings) -> tuple[str, float]:
    """Return the best test-wise strategy and its share right; an error where it beats chance clearly."""
    if len(items) < FEW_ITEMS:
        return "", 0.0
    texts = [[option.text for option in word_item(library, item, "en").options] for item in items]
    chance = sum(1 / len(item.options) for item in items) / len(items)
    limit = chance + STANDARD_ERRORS * sqrt(chance * (1 - chance) / len(items))
    best = ("", 0.0)
    for name, strategy in STRATEGIES.items():
        right = sum(
            item.options[strategy(item, shown)].correct for item, shown in zip(items, texts, strict=True)
        ) / len(items)
        if right > limit:
            findings.error(
                "test-wise", f"{name!r} is right in {right:.0%}, chance is {chance:.0%}", "Change the wrong values."
            )
        best = max(best, (name, right), key=lambda each: each[1])
    return best


def _middle(item: Item, _texts: Sequence[str]) -> int:
    return len(item.options) // 2


def _longest(_item: Item, texts: Sequence[str]) -> int:
    return max(range(len(texts)), key=lambda i: (len(texts[i]), (7 * i) % len(texts)))


def _roundest(item: Item, _texts: Sequence[str]) -> int:
    if not is_numeric(item.value, item.key) or item.value.kind == "pair":
        return 0
    ten = [i for i, option in enumerate(item.options) if option.value % 10 == 0]
    five = [i for i, option in enumerate(item.options) if option.value % 5 == 0]
    candidates = ten or five or list(range(len(item.options)))
    return candidates[item.seed % len(candidates)]


STRATEGIES: dict[str, Strategy] = {
    "pick the middle": _middle,
    "pick the longest": _longest,
    "pick the roundest": _roundest,
}
