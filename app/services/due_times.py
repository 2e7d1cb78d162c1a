"""Due times: what somebody writes as a day and a time of a place, as the one moment that it means there."""

from datetime import UTC, date, datetime, time
from functools import cache
from zoneinfo import ZoneInfo, available_timezones

from app.packs.spec import Language
from app.services.errors import Invalid
from app.services.messages import say

END_OF_DAY = time(23, 59)


def moment_of(day: str, clock: str, zone: str, language: Language) -> datetime:
    """Return the moment of a local day (2026-09-12) and time (17:00); without a time, the last minute of the day.

    Invalid for what is no day, time or zone, and for a time that the clocks there skip or show twice.
    """
    if zone not in known_zones():
        raise Invalid(say("no-zone", language, value=zone), "time_zone")
    wall = datetime.combine(_day(day, language), _clock(clock, language))
    earlier = wall.replace(tzinfo=ZoneInfo(zone))
    later = earlier.replace(fold=1)
    if earlier.utcoffset() != later.utcoffset():
        skipped = earlier.astimezone(UTC).astimezone(earlier.tzinfo).replace(tzinfo=None) != wall
        code = "time-skipped" if skipped else "time-twice"
        raise Invalid(say(code, language, value=f"{wall:%Y-%m-%d %H:%M}", zone=zone), "due_time")
    return earlier.astimezone(UTC)


def future_moment(day: str, clock: str, zone: str, language: Language, now: datetime) -> datetime:
    """Return the moment as `moment_of` does; Invalid also for one that has passed."""
    moment = moment_of(day, clock, zone, language)
    if moment <= now:
        local = f"{now.astimezone(ZoneInfo(zone)):%Y-%m-%d %H:%M}"
        raise Invalid(say("due-passed", language, value=f"{day} {clock}".strip(), now=local, zone=zone), "due_day")
    return moment


@cache
def known_zones() -> frozenset[str]:
    """Return the names of the time zones this machine knows."""
    return frozenset(available_timezones())


def _day(text: str, language: Language) -> date:
    try:
        return date.fromisoformat(text.strip())
    except ValueError as error:
        raise Invalid(say("no-day", language, value=text), "due_day") from error


def _clock(text: str, language: Language) -> time:
    if not text.strip():
        return END_OF_DAY
    try:
        return datetime.strptime(text.strip(), "%H:%M").time()  # noqa: DTZ007 - a time of a place
    except ValueError as error:
        raise Invalid(say("no-clock", language, value=text), "due_time") from error
