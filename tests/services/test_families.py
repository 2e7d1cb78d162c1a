import pytest

from app.services.about import list_sources
from app.services.errors import NotFound
from app.services.families import get_topic, list_families
from tests.questions.engine import library


def test_topic_is_found_by_its_id() -> None:
    assert get_topic(library(), "datum", "fr").title == library().packs["datum"].title.fr
    with pytest.raises(NotFound):
        get_topic(library(), "astrology", "en")


def test_families_come_in_the_order_of_their_pack() -> None:
    families = list_families(library(), "datum", "en")
    assert tuple(family.id for family in families) == library().packs["datum"].families
    assert all(family.title and family.skill for family in families)


def test_sources_are_listed_once_each() -> None:
    sources = list_sources(library())
    assert len(set(sources)) == len(sources)
    assert set(library().family("true-to-compass").sources) <= set(sources)
