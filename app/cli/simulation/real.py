"""The same learners through the program, drills that adapt, mend and rehearse: compared with the fast path."""

from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from uuid import UUID

from app.cli.simulation.course import ANSWERS_A_DAY, SKILLS, START, STEP
from app.cli.simulation.learners import KINDS, Given, Question, new_learner
from app.cli.simulation.measures import Figure, Pair, calibration_error, log_loss
from app.cli.simulation.shapes import Kin, telling_answers
from app.grader.grade import grade
from app.grader.made_up import fields_of, wrong_value
from app.learner.difficulty import first_difficulty
from app.learner.evidence import Evidence, Level, Skill, learn, new_skill, predict_right
from app.packs.library import Library
from app.questions.model import Item
from app.services.actor import Actor
from app.services.adaptive import Aim, start_adaptive
from app.services.drills import get_drill
from app.services.exam_profiles import built_in_profiles
from app.services.items import get_item
from app.services.learning import find_state, posed_of
from app.services.practice import Sent, answer, question, read_reply
from app.services.rehearsal_answers import hand_in, keep_answer
from app.services.rehearsals import get_rehearsal, start_rehearsal
from app.services.visits import guest, open_visit
from app.storage.engine import create_engine_for
from app.storage.migrate import upgrade
from app.storage.queries.attempts import list_marks
from app.storage.queries.drills import PlaceRow
from app.storage.unit_of_work import UnitOfWork

MENDING = 5
NAME = "through the services: "


def study_services(library: Library, bank: Sequence[Kin], learners: int, days: int, seed: int) -> Iterator[Figure]:
    """Let learners practise, mend a misconception and rehearse: what is kept must be what the fast path makes."""
    walks = []
    with TemporaryDirectory() as folder:
        file = Path(folder) / "simulated.sqlite3"
        upgrade(file)
        with closing(UnitOfWork(create_engine_for(file))) as uow:
            for number in range(learners):
                walk = _Walk(uow, (library, bank), number, seed)
                walk.go(days)
                walks.append(walk)
            apart = max(walk.difference() for walk in walks)
    predicted, true = ([pair for walk in walks for pair in walk.pairs[each]] for each in ("predicted", "true"))
    yield Figure(NAME + "log loss, items chosen to be missed now and then", log_loss(predicted))
    yield Figure(NAME + "log loss of the true probabilities", log_loss(true))
    yield Figure(NAME + "calibration error", calibration_error(predicted))
    for what in ("drills", "mending", "rehearsal"):
        yield Figure(f"{NAME}answers, {what}", float(sum(walk.answers[what] for walk in walks)))
    yield Figure(NAME + "apart from the fast path", apart, 1e-9)


class _Walk:
    """One learner's way through the program, with the fast path beside it; the clock stands still but for our steps."""

    def __init__(self, uow: UnitOfWork, asked: tuple[Library, Sequence[Kin]], number: int, seed: int) -> None:
        self.uow = uow
        self.library, bank = asked
        self.rng = Random(f"services {seed} {number}")
        kind = list(KINDS.values())[number % len(KINDS)]
        self.practised = tuple(self.rng.sample(bank, SKILLS))
        self.learner = new_learner(kind, bank, self.rng)
        self.actor: Actor = open_visit(uow, guest("en", START), START).actor
        self.level = Level()
        self.skills: dict[str, Skill] = {each.id: new_skill(each.misconceptions) for each in bank}
        self.now = START
        self.pairs: dict[str, list[Pair]] = {"predicted": [], "true": []}
        self.answers: Counter[str] = Counter()

    def go(self, days: int) -> None:
        """Practise so many days, then mend what is likeliest wrong, then rehearse the shortest exam."""
        for day in range(days):
            self.now = START + timedelta(days=day)
            self._drill(Aim(families=tuple(each.id for each in self.practised), length=ANSWERS_A_DAY), "drills")
        likeliest = max(
            (self.skills[family.id].misconceptions[name], f"{family.id}/{name}")
            for family in self.practised
            for name in family.showable
        )
        self._drill(Aim(misconception=likeliest[1], length=MENDING), "mending")
        self._rehearse()

    def difference(self) -> float:
        """Return how far any kept mean lies from that of the fast path."""
        with self.uow.reader() as connection:
            kept = find_state(connection, self.actor.school_id, self.actor.own_visit)
        gaps = [abs(kept.level.mean - self.level.mean)]
        gaps += [abs(each.skill.mean - self.skills[name].mean) for name, each in kept.skills.items()]
        return max(gaps)

    def _drill(self, aim: Aim, what: str) -> None:
        """Answer what the program chooses, one after the other."""
        drill_id = start_adaptive(self.uow, self.actor, self.library, aim, self.rng.randrange(2**31), self.now)
        while (place := self._open_place(drill_id)) is not None:
            item = get_item(self.library, place, self.actor.conventions.as_json(), "en")
            question = self._question(item)
            chances = predict_right(self.level, self.skills[item.family], question.posed, self.now)
            true = self.learner.chance(question)
            sent, evidence = self._reply(item, question)
            answer(self.uow, self.actor, self.library, place.id, sent, self.now)
            self._take(item.family, evidence)
            self.pairs["predicted"].append((chances, float(evidence.correct)))
            self.pairs["true"].append((true, float(evidence.correct)))
            self.answers[what] += 1
            self.now += STEP

    def _rehearse(self) -> None:
        """Fill in a whole exam, hand it in, and let the fast path learn in the order in which it was marked."""
        shortest = min(built_in_profiles(), key=lambda profile: profile.asked)
        wish = (shortest.id, False)
        rehearsal = start_rehearsal(self.uow, self.actor, self.library, wish, self.rng.randrange(2**31), self.now)
        view = get_rehearsal(self.uow, self.actor, self.library, rehearsal, self.now)
        given = {}
        drill, places = get_drill(self.uow, self.actor, view.drill_id)
        for place in places:
            item = get_item(self.library, place, drill.conventions, "en")
            sent, evidence = self._reply(item, self._question(item))
            keep_answer(self.uow, self.actor, self.library, (rehearsal, place.position), sent, self.now)
            given[place.id] = item.family, evidence
        hand_in(self.uow, self.actor, self.library, rehearsal, self.now)
        with self.uow.reader() as connection:
            marks = list_marks(connection, self.actor.school_id, self.actor.own_visit)
        for mark in marks:
            if mark.drill_item_id in given:
                self._take(*given[mark.drill_item_id])
                self.answers["rehearsal"] += 1

    def _open_place(self, drill_id: UUID) -> PlaceRow | None:
        question(self.uow, self.actor, self.library, drill_id, self.now)
        places = get_drill(self.uow, self.actor, drill_id)[1]
        return next((place for place in places if place.correct is None), None)

    def _question(self, item: Item) -> Question:
        difficulty = first_difficulty(self.library.family(item.family).grade)
        return Question(item.family, posed_of(self.library, item, difficulty), telling_answers(item))

    def _reply(self, item: Item, question: Question) -> tuple[Sent, Evidence]:
        """Return what the learner sends, and what it says once it is graded."""
        given = self.learner.answer(question)
        value = item.key if given.correct else wrong_value(self.library, item, self.rng, given.shown)
        sent = Sent(fields_of(self.library, item, value))
        marks = grade(self.library, item, read_reply(self.library, item, sent, "en"))
        shown = tuple(name for name in marks.misconceptions if name in question.posed.offered)
        return sent, Evidence(question.posed, marks.correct, self.now, shown)

    def _take(self, family: str, evidence: Evidence) -> None:
        self.level, self.skills[family] = learn(self.level, self.skills[family], evidence)
        self.learner.learn(family, Given(evidence.correct, evidence.shown))
