"""The families of a topic, for somebody who chooses what to drill."""

from collections.abc import Sequence
from typing import NamedTuple

from app.packs.library import Library
from app.packs.spec import Language
from app.services.drills import TopicView, list_topics
from app.services.errors import NotFound


class FamilyView(NamedTuple):
    """A family one can choose, and the skill it asks for."""

    id: str
    title: str
    skill: str


def get_topic(library: Library, topic_id: str, language: Language) -> TopicView:
    """Return a topic; NotFound where there is none."""
    for topic in list_topics(library, language):
        if topic.id == topic_id:
            return topic
    raise NotFound(topic_id)


def list_families(library: Library, topic_id: str, language: Language) -> Sequence[FamilyView]:
    """Return a topic's families in the pack's order."""
    families = library.families_of(topic_id)
    return tuple(FamilyView(each.id, each.title.of(language), each.skill.of(language)) for each in families)
