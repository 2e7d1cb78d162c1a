"""What a topic set is drawn from: topics, families, syllabus lines, a misconception or a fixed list, and how many."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from itertools import islice
from typing import Any, get_args

from app.packs.library import Library
from app.packs.spec import Form, Grade, Language
from app.questions.conventions import Conventions
from app.questions.model import Item
from app.services.errors import Invalid
from app.services.messages import say
from app.services.mix import ANYTHING, Suits, choose_items

COUNT = 10
MOST = 50
TRIES_FOR_EACH = 8
GRADES: tuple[Grade, ...] = get_args(Grade)
FORMS: tuple[Form, ...] = get_args(Form)


@dataclass(frozen=True, slots=True)
class SetWish:
    """Which questions a set holds. Topics, families and syllabus lines add up; nothing named means everything.

    misconception: "family/id"; then only items whose wrong answers hold it. fixed: families in order, one a place;
    then nothing else is asked. grades and forms: empty means any.
    """

    topics: tuple[str, ...] = ()
    families: tuple[str, ...] = ()
    syllabus: str = ""
    misconception: str = ""
    fixed: tuple[str, ...] = ()
    count: int = COUNT
    grades: tuple[str, ...] = ()
    forms: tuple[str, ...] = ()

    def as_json(self) -> dict[str, Any]:
        """Return plain values for storing; `from_json` takes them back."""
        return asdict(self)

    @classmethod
    def from_json(cls, stored: Mapping[str, Any]) -> "SetWish":
        """Take back what `as_json` gave, whether or not it has been JSON since."""
        values: dict[str, Any] = {k: tuple(v) if isinstance(v, list) else v for k, v in stored.items()}
        return cls(**values)


def choose_set(
    library: Library, wish: SetWish, conventions: Conventions, seed: int, language: Language
) -> tuple[Item, ...]:
    """Return the items of a wish without faults, no question twice; Invalid names what is too much to ask."""
    if wish.fixed:
        return _fixed_items(library, wish, conventions, seed, language)
    families = fitting_families(library, wish)
    chosen = tuple(islice(_different(_candidates(library, wish, families, conventions, seed)), wish.count))
    if not chosen:
        raise Invalid(say("set-nothing-fits", language, place=conventions.place), "count")
    if len(chosen) < wish.count:
        raise Invalid(say("set-too-few", language, value=wish.count, found=len(chosen)), "count")
    return chosen


def fitting_families(library: Library, wish: SetWish) -> tuple[str, ...]:
    """Return the families a wish draws from, in the library's order."""
    topics = [library.packs[topic] for topic in wish.topics if topic in library.packs]
    named = {family for pack in topics for family in pack.families} | set(wish.families)
    if wish.syllabus:
        named |= {family.id for family in library.families.values() if _serves(family.syllabus, wish.syllabus)}
    chosen = named or set(library.families)
    if wish.misconception:
        chosen &= set(carriers(library, wish.misconception))
    return tuple(
        family_id
        for pack in library.packs.values()
        for family_id in pack.families
        if family_id in chosen and (not wish.grades or library.family(family_id).grade in wish.grades)
    )


def carriers(library: Library, misconception: str) -> tuple[str, ...]:
    """Return the families that know a misconception by the same id and name; none when there is no such one."""
    family_id, _, name = misconception.partition("/")
    family = library.families.get(family_id)
    meant = {each.id: each.name for each in family.misconceptions} if family else {}
    if name not in meant:
        return ()
    return tuple(
        family.id
        for family in library.families.values()
        if any(each.id == name and each.name == meant[name] for each in family.misconceptions)
    )


def suits(wish: SetWish) -> Suits:
    """Return what an item of this wish must be like."""
    if not wish.forms and not wish.misconception:
        return ANYTHING
    return Suits(frozenset(wish.forms), wish.misconception.rpartition("/")[2])


def another(
    library: Library, wish: SetWish, conventions: Conventions, seed: int, instead_of: tuple[str, Sequence[Item]]
) -> Item | None:
    """Return an item of this wish in place of one of a family, not among those there are; None when there is none."""
    family_id, there = instead_of
    families = [each for each in (family_id,) if each in library.families]
    taken, kinds = {_content(each) for each in there}, {each.family for each in there}
    candidates = _candidates(
        library, wish, families if wish.fixed else fitting_families(library, wish), conventions, seed
    )
    fresh = [each for each in candidates if _content(each) not in taken]
    return next((each for each in fresh if each.family not in kinds), next(iter(fresh), None))


def _candidates(
    library: Library, wish: SetWish, families: Sequence[str], conventions: Conventions, seed: int
) -> Iterator[Item]:
    tries = max(TRIES_FOR_EACH * wish.count, 2 * len(families))
    return islice(choose_items(library, families, conventions, seed, suits(wish)), tries)


def _different(items: Iterator[Item]) -> Iterator[Item]:
    seen: set[tuple[str, str, tuple[str, ...]]] = set()
    for item in items:
        if _content(item) not in seen:
            seen.add(_content(item))
            yield item


def _content(item: Item) -> tuple[str, str, tuple[str, ...]]:
    """Return what makes a question another one: its numbers, not the order of its options."""
    return item.family, item.ask, tuple(sorted(map(str, item.parameters.items())))


def _fixed_items(
    library: Library, wish: SetWish, conventions: Conventions, seed: int, language: Language
) -> tuple[Item, ...]:
    chosen: list[Item] = []
    for position, family_id in enumerate(wish.fixed):
        drawn = choose_items(library, (family_id,), conventions, seed + position, suits(wish))
        item = next(iter(_different(islice(drawn, 1))), None)
        if item is None:
            raise Invalid(say("set-not-offered", language, value=family_id, place=conventions.place), "fixed")
        chosen.append(item)
    return tuple(chosen)


def wish_faults(library: Library, wish: SetWish, language: Language) -> Iterator[Invalid]:
    """Yield what does not exist or is out of range."""
    counted = ("fixed", len(wish.fixed)) if wish.fixed else ("count", wish.count)
    if not 1 <= counted[1] <= MOST:
        yield Invalid(say("set-count", language, value=counted[1], most=MOST), counted[0])
    for code, field, known in (
        ("set-no-topic", "topics", library.packs),
        ("set-no-family", "families", library.families),
        ("set-no-family", "fixed", library.families),
        ("set-choice", "grades", GRADES),
        ("set-choice", "forms", FORMS),
    ):
        unknown = [value for value in getattr(wish, field) if value not in known]
        if unknown:
            yield Invalid(say(code, language, value=", ".join(unknown), accepted=", ".join(known)), field)
    if wish.syllabus and not any(_serves(family.syllabus, wish.syllabus) for family in library.families.values()):
        yield Invalid(say("set-no-line", language, value=wish.syllabus), "syllabus")
    if wish.misconception and not carriers(library, wish.misconception):
        yield Invalid(say("set-no-misconception", language, value=wish.misconception), "misconception")


def _serves(lines_by_syllabus: Mapping[str, tuple[str, ...]], line: str) -> bool:
    return any(line in lines for lines in lines_by_syllabus.values())
