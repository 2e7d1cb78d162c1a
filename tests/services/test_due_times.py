"""Due times. The clock changes are those of the IANA time zone data: Toronto goes to standard time on 2026-11-01 and
to daylight time on 2027-03-14; Lord Howe Island moves its clocks by half an hour; Phoenix never does."""

from datetime import UTC, datetime, timedelta

import pytest

from app.services.due_times import future_moment, moment_of
from app.services.errors import Invalid

NOW = datetime(2026, 9, 1, 14, 30, tzinfo=UTC)


@pytest.mark.parametrize(
    ("day", "clock", "zone", "utc"),
    [
        ("2026-09-04", "17:00", "America/Toronto", "2026-09-04 21:00"),
        ("2026-12-04", "17:00", "America/Toronto", "2026-12-04 22:00"),
        ("2026-09-04", "", "America/Toronto", "2026-09-05 03:59"),
        ("2026-07-01", "12:00", "America/Phoenix", "2026-07-01 19:00"),
        ("2026-07-01", "12:00", "Pacific/Auckland", "2026-07-01 00:00"),
        ("2026-11-01", "00:59", "America/Toronto", "2026-11-01 04:59"),
        ("2026-11-01", "02:00", "America/Toronto", "2026-11-01 07:00"),
        ("2027-03-14", "03:00", "America/Toronto", "2027-03-14 07:00"),
    ],
)
def test_local_time_is_one_moment(day: str, clock: str, zone: str, utc: str) -> None:
    assert f"{moment_of(day, clock, zone, 'en'):%Y-%m-%d %H:%M}" == utc


@pytest.mark.parametrize(
    ("day", "clock", "zone", "field", "words"),
    [
        ("2027-03-14", "02:30", "America/Toronto", "due_time", "skip 2027-03-14 02:30"),
        ("2026-11-01", "01:30", "America/Toronto", "due_time", "show 2026-11-01 01:30 twice"),
        ("2026-10-04", "02:15", "Australia/Lord_Howe", "due_time", "skip"),
        ("2026-13-01", "12:00", "America/Toronto", "due_day", "“2026-13-01” is not a day"),
        ("tomorrow", "12:00", "America/Toronto", "due_day", "2026-09-12"),
        ("2026-09-04", "5 pm", "America/Toronto", "due_time", "“5 pm” is not a time"),
        ("2026-09-04", "24:00", "America/Toronto", "due_time", "24:00"),
        ("2026-09-04", "17:00", "Mars/Olympus", "time_zone", "Mars/Olympus"),
        ("2026-09-04", "17:00", "../etc/passwd", "time_zone", "no time zone"),
    ],
)
def test_what_cannot_be_is_named(day: str, clock: str, zone: str, field: str, words: str) -> None:
    with pytest.raises(Invalid) as caught:
        moment_of(day, clock, zone, "en")
    assert (caught.value.field, words in caught.value.message) == (field, True), caught.value.message


def test_past_is_refused_by_the_clock_of_the_place() -> None:
    with pytest.raises(Invalid, match="it is 2026-09-01 10:30"):
        future_moment("2026-09-01", "10:30", "America/Toronto", "en", NOW)
    assert future_moment("2026-09-01", "10:31", "America/Toronto", "en", NOW) == NOW + timedelta(minutes=1)
