"""The same learners through the program: drawn items, graded replies, a database; compared with the fast path."""

from collections.abc import Iterator, Sequence
from datetime import timedelta
from itertools import islice
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from app.cli.simulation.course import ANSWERS_A_DAY, START, STEP
from app.cli.simulation.learners import KINDS, Given, Question, SyntheticLearner, kin_of, new_learner
from app.cli.simulation.measures import Pair, calibration_error, log_loss
from app.cli.simulation.studies import SKILLS, Figure
from app.learner.difficulty import first_difficulty
from app.learner.evidence import Evidence, Level, Skill, learn, new_skill, predict_right
from app.packs.library import Library
from app.questions.model import Item
from app.services.actor import Actor
from app.services.drills import get_drill, keep_drill, new_drill
from app.services.learning import find_state, posed_of
from app.services.mix import Suits, choose_items
from app.services.practice import Sent, answer
from app.services.visits import guest, open_visit
from app.storage.engine import create_engine_for
from app.storage.ids import new_id
from app.storage.migrate import upgrade
from app.storage.unit_of_work import UnitOfWork

CHOICE = Suits(frozenset({"choice"}))


def study_services(library: Library, learners: int, answers: int, seed: int) -> Iterator[Figure]:
    """Let learners answer drawn questions with options; what is kept must be what the fast path makes of the same."""
    pairs: list[Pair] = []
    apart = 0.0
    with TemporaryDirectory() as folder:
        file = Path(folder) / "simulated.sqlite3"
        upgrade(file)
        engine = create_engine_for(file)
        for number in range(learners):
            walk = _Walk(UnitOfWork(engine), library, number, seed)
            pairs += walk.answer_all(answers)
            apart = max(apart, walk.difference())
        engine.dispose()
    yield Figure("through the services: log loss", log_loss(pairs))
    yield Figure("through the services: calibration error", calibration_error(pairs))
    yield Figure("through the services: apart from the fast path", apart, 1e-9)


class _Walk:
    """One learner's way through the program, with the fast path beside it."""

    def __init__(self, uow: UnitOfWork, library: Library, number: int, seed: int) -> None:
        self.uow, self.library, self.number = uow, library, number
        self.rng = Random(f"services {seed} {number}")
        self.families = kin_of(library, SKILLS, self.rng)
        kind = list(KINDS.values())[number % len(KINDS)]
        self.learner: SyntheticLearner = new_learner(kind, self.families, self.rng)
        self.actor: Actor = open_visit(uow, guest("en", START), START).actor
        self.level = Level()
        self.skills: dict[str, Skill] = {each.id: new_skill(each.misconceptions) for each in self.families}

    def answer_all(self, count: int) -> list[Pair]:
        """Answer so many questions; returns predicted and right."""
        items = self._items(count)
        drill = new_drill(self.actor, new_id(START), None, self.number, START)
        keep_drill(self.uow, drill, items, START)
        places = get_drill(self.uow, self.actor, drill.id)[1]
        pairs = []
        for number, (place, item) in enumerate(zip(places, items, strict=True)):
            now = START + timedelta(days=number // ANSWERS_A_DAY) + STEP * (number % ANSWERS_A_DAY)
            difficulty = first_difficulty(self.library.family(item.family).grade)
            question = Question(item.family, posed_of(self.library, item, difficulty))
            skill = self.skills[item.family]
            p = predict_right(self.level, skill, question.posed, now)
            given = self.learner.answer(question)
            position, shown = _position(item, given)
            answer(self.uow, self.actor, self.library, place.id, Sent({"choice": [str(position)]}), now)
            seen = Evidence(question.posed, given.correct, now, shown)
            self.level, self.skills[item.family] = learn(self.level, skill, seen)
            self.learner.learn(item.family, given)
            pairs.append((p, float(given.correct)))
        return pairs

    def difference(self) -> float:
        """Return how far any kept mean lies from that of the fast path."""
        with self.uow.reader() as connection:
            kept = find_state(connection, self.actor.school_id, self.actor.own_visit)
        gaps = [abs(kept.level.mean - self.level.mean)]
        gaps += [abs(each.skill.mean - self.skills[name].mean) for name, each in kept.skills.items()]
        return max(gaps)

    def _items(self, count: int) -> Sequence[Item]:
        names = [each.id for each in self.families]
        drawn = choose_items(self.library, names, self.actor.conventions, self.rng.randrange(2**31), CHOICE)
        return list(islice(drawn, count))


def _position(item: Item, given: Given) -> tuple[int, tuple[str, ...]]:
    """Return the option a learner chooses, and all that it shows: two misconceptions may share one value."""
    for position, option in enumerate(item.options):
        if option.correct if given.correct else set(given.shown) & set(option.misconceptions):
            return position, () if given.correct else tuple(option.misconceptions)
    wrong = next(position for position, option in enumerate(item.options) if not option.correct)
    return wrong, tuple(item.options[wrong].misconceptions)
