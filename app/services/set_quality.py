"""How good topic sets are as tests, from the marks of everybody who sat them whole."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from itertools import groupby
from uuid import UUID

import numpy as np

from app.insight.set_quality import SetFigures, judge_set
from app.storage.models import SetQuality
from app.storage.queries.quality import SetMarkRow


def judge_sets(school_id: UUID, rows: Sequence[SetMarkRow], now: datetime) -> Iterator[SetQuality]:
    """Yield the figures of every set that somebody answered from the first place to the last.

    A question of which an answer was set aside is left out for all.
    """
    for set_id, answers in groupby(rows, lambda row: row.topic_set_id):
        sat = [list(each) for _, each in groupby(answers, lambda row: row.drill_id)]
        aside = {row.position for each in sat for row in each if row.set_aside_at is not None}
        counted = [[row for row in each if row.position not in aside] for each in sat]
        whole = [each for each in counted if each and all(row.correct is not None for row in each)]
        alike = [each for each in whole if _places(each) == _places(whole[0])]
        if alike:
            marks = np.array([[bool(row.correct) for row in each] for each in alike], dtype=np.int8)
            yield _set_row(school_id, set_id, _places(alike[0]), judge_set(marks), now)


def _places(sat: Sequence[SetMarkRow]) -> list[tuple[int, str]]:
    return [(row.position, row.family) for row in sat]


def _set_row(
    school_id: UUID, set_id: UUID, places: Sequence[tuple[int, str]], figures: SetFigures, now: datetime
) -> SetQuality:
    latent = figures.latent or (None,) * len(places)
    items = [
        {"position": position, "family": family, "share": each.share_right, "rest": each.item_rest_shrunken}
        | ({"slope": pair[0], "difficulty": pair[1]} if pair else {})
        for (position, family), each, pair in zip(places, figures.items, latent, strict=True)
    ]
    found = figures.reliability
    return SetQuality(
        school_id=school_id,
        topic_set_id=set_id,
        students=figures.students,
        reliability=found.value if found else None,
        low=found.low if found else None,
        high=found.high if found else None,
        model=figures.model,
        items=items,
        counted_at=now,
    )
