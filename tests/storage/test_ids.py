from datetime import UTC, datetime, timedelta
from uuid import RFC_4122

from app.storage.ids import new_id


def test_layout_is_that_of_version_7(now: datetime) -> None:
    """RFC 9562, appendix A.6: 2022-02-22 19:22:22 UTC is 0x017F22E279B0 milliseconds."""
    example = datetime(2022, 2, 22, 19, 22, 22, tzinfo=UTC)
    assert new_id(example).hex.startswith("017f22e279b07")
    for _ in range(50):
        made = new_id(now)
        assert made.version == 7
        assert made.variant == RFC_4122


def test_later_ids_sort_later(now: datetime) -> None:
    made = [new_id(now + timedelta(milliseconds=i)) for i in range(100)]
    assert made == sorted(made)
    assert [each.hex for each in made] == sorted(each.hex for each in made)


def test_ids_of_one_moment_differ(now: datetime) -> None:
    assert len({new_id(now) for _ in range(1000)}) == 1000
