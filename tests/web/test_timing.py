"""How long an answer took is believed only from our own seal, for its own question, within bounds."""

from datetime import timedelta

import pytest
from flask import Flask

from app.web.timing import LONGEST, elapsed_ms, seal_time
from tests.fakes import START


def test_time_is_measured(app: Flask) -> None:
    with app.app_context():
        sealed = seal_time("item", START)
        assert elapsed_ms(sealed, "item", START + timedelta(seconds=12.5)) == 12_500
        assert elapsed_ms(sealed, "item", START) == 0


@pytest.mark.parametrize("later", [timedelta(seconds=-1), LONGEST + timedelta(milliseconds=1)])
def test_out_of_bounds_is_unknown(app: Flask, later: timedelta) -> None:
    with app.app_context():
        assert elapsed_ms(seal_time("item", START), "item", START + later) is None


def test_another_questions_seal_is_unknown(app: Flask) -> None:
    with app.app_context():
        assert elapsed_ms(seal_time("item", START), "other", START) is None


@pytest.mark.parametrize("sealed", ["", "x", "WyJpdGVtIiwxXQ.forged", "\udcff", "é.é"])
def test_forged_seal_is_unknown(app: Flask, sealed: str) -> None:
    with app.app_context():
        assert elapsed_ms(sealed, "item", START) is None
