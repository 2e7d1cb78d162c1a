"""What builds an address is written when one is built, and builds what Werkzeug's own does."""

from unittest.mock import patch

from flask import Flask
from werkzeug.routing import Map, Rule

from app.web.rules import LateRule

ADDRESS = "/<part>/<int:rule>"
VALUES = {"part": "A b", "rule": 7, "more": "é & ?"}


def test_addresses_are_those_of_werkzeugs_own_rules() -> None:
    late, own = (Map([kind(ADDRESS, endpoint="page")]).bind("school.example") for kind in (LateRule, Rule))
    assert late.build("page", VALUES) == own.build("page", VALUES) == "/A%20b/7?more=%C3%A9+%26+?"
    assert late.match("/A b/7") == own.match("/A b/7")


def test_rule_is_written_once_when_it_is_used(app: Flask) -> None:
    assert {type(rule) for rule in app.url_map.iter_rules()} == {LateRule}
    with patch.object(Rule, "_get_func_code", wraps=Rule._get_func_code) as write:
        pages = Map([LateRule(ADDRESS, endpoint="page")]).bind("school.example")
        assert write.call_count == 0
        assert pages.build("page", VALUES) == pages.build("page", VALUES)
        assert write.call_count == 1
