"""All tables. Importing this package is what makes `Base.metadata` complete."""

from app.storage.models.attempt import Attempt
from app.storage.models.audit import AuditEntry
from app.storage.models.drill import Drill, DrillItem
from app.storage.models.learner import Learner, LearnerSkill
from app.storage.models.measured import MeasuredDifficulty
from app.storage.models.own_question import OwnQuestion, OwnVersion
from app.storage.models.person import Invitation, OneTimeCode, Person, SignIn, Throttle
from app.storage.models.quality import FamilyQuality, QualityRun, SetQuality
from app.storage.models.recheck import Recheck, RecheckPerson
from app.storage.models.regraded import RegradedAttempt
from app.storage.models.rehearsal import ExamProfile, Rehearsal, RehearsalDraft
from app.storage.models.report import Report
from app.storage.models.school import VISITORS_SCHOOL_ID, School
from app.storage.models.school_class import ClassInstructor, Enrolment, SchoolClass
from app.storage.models.tally import ErasedTally, WeekTally
from app.storage.models.topic_set import (
    AssignedPerson,
    Assignment,
    Extension,
    PassMark,
    Sitting,
    TopicSet,
    TopicSetItem,
)
from app.storage.models.training import TrainingEntry
from app.storage.models.visit import Visit
from app.storage.models.withdrawal import Withdrawal

__all__ = [
    "VISITORS_SCHOOL_ID",
    "AssignedPerson",
    "Assignment",
    "Attempt",
    "AuditEntry",
    "ClassInstructor",
    "Drill",
    "DrillItem",
    "Enrolment",
    "ErasedTally",
    "ExamProfile",
    "Extension",
    "FamilyQuality",
    "Invitation",
    "Learner",
    "LearnerSkill",
    "MeasuredDifficulty",
    "OneTimeCode",
    "OwnQuestion",
    "OwnVersion",
    "PassMark",
    "Person",
    "QualityRun",
    "Recheck",
    "RecheckPerson",
    "RegradedAttempt",
    "Rehearsal",
    "RehearsalDraft",
    "Report",
    "School",
    "SchoolClass",
    "SetQuality",
    "SignIn",
    "Sitting",
    "Throttle",
    "TopicSet",
    "TopicSetItem",
    "TrainingEntry",
    "Visit",
    "WeekTally",
    "Withdrawal",
]
