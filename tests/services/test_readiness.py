"""Readiness from the learner's state: not enough, limiting section, a day ahead, whose it is."""

from dataclasses import replace
from datetime import timedelta

import pytest

from app.learner.evidence import Level, Skill
from app.services import readiness as module
from app.services.actor import Actor
from app.services.errors import Invalid
from app.services.exam_profiles import built_in_profiles
from app.services.learning import LearnerState, SkillState
from app.services.readiness import ReadinessView, ready_for, spread
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import NOW, visitor

CANADA, US, UK = built_in_profiles()
NAVIGATION = ("datum", "reading", "wind", "track")


def known(monkeypatch: pytest.MonkeyPatch, *, navigation: float, others: float, answers: int = 20) -> None:
    """Let every family be known: navigation at one ability, the rest at another."""
    skills = {
        family.id: SkillState(Skill(navigation if family.topic in NAVIGATION else others, 0.1, answers, last_at=NOW))
        for family in library().families.values()
    }
    monkeypatch.setattr(module, "find_state", lambda *_: LearnerState(Level(0.0, 0.05), skills))


def view(uow: UnitOfWork, actor: Actor, profile: int = 0, on: str = "") -> ReadinessView:
    return ready_for(uow, actor, library(), built_in_profiles()[profile], (on, NOW))


def test_nobody_is_told_anything_before_three_answers_a_kind(uow: UnitOfWork, monkeypatch: pytest.MonkeyPatch) -> None:
    alice = visitor(uow)
    assert {section.words for section in view(uow, alice).sections} == {"not-enough"}
    known(monkeypatch, navigation=3, others=3, answers=2)
    assert view(uow, alice).words == "not-enough"
    known(monkeypatch, navigation=3, others=3, answers=3)
    assert view(uow, alice).words == "very-likely"


def test_one_weak_section_limits_the_whole(uow: UnitOfWork, monkeypatch: pytest.MonkeyPatch) -> None:
    """Air law's kinds are of topics of navigation and pressure: its own mark is what is weak with navigation."""
    known(monkeypatch, navigation=-2.5, others=4)
    ready = view(uow, visitor(uow))
    assert ready.words == "unlikely"
    assert ready.limiting.title == "Navigation"
    assert ready.limiting.next
    words = {section.title: section.words for section in ready.sections}
    assert words["Aeronautics, general knowledge"] == "very-likely"


def test_what_is_known_fades_until_the_day(uow: UnitOfWork, monkeypatch: pytest.MonkeyPatch) -> None:
    alice = visitor(uow)
    known(monkeypatch, navigation=1.3, others=1.3, answers=3)
    today, in_a_year = view(uow, alice, 2), view(uow, alice, 2, "2027-09-01")
    assert (today.words, today.on) == ("likely", None)
    assert in_a_year.words in {"open", "unlikely"}
    assert str(in_a_year.on) == "2027-09-01"


@pytest.mark.parametrize("typed", ["2026-08-31", "2028-09-02", "tomorrow", "2026-13-01"])
def test_days_that_are_none(uow: UnitOfWork, typed: str) -> None:
    with pytest.raises(Invalid, match="no day to sit an exam on"):
        view(uow, visitor(uow), 0, typed)


def test_today_is_the_readers_day(uow: UnitOfWork) -> None:
    """At 02:30 UTC it is still the day before in Toronto."""
    toronto = replace(visitor(uow), time_zone="America/Toronto")
    ready = ready_for(uow, toronto, library(), UK, ("2026-09-01", NOW + timedelta(hours=12)))
    assert str(ready.on) == "2026-09-01"


@pytest.mark.parametrize(("questions", "families"), [(25, 3), (5, 9), (7, 7), (0, 4)])
def test_questions_are_spread_evenly(questions: int, families: int) -> None:
    shares = spread(questions, [str(number) for number in range(families)])
    assert sum(shares.values()) == questions
    assert not shares or max(shares.values()) - (min(shares.values()) if len(shares) == families else 0) <= 1
