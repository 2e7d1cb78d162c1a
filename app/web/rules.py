"""Rules of addresses that cost a start little: what builds an address is written when the first one is built."""

from collections.abc import Callable
from functools import cache
from typing import Any

from werkzeug.routing import Rule

Builder = Callable[..., tuple[str, str]]


class LateRule(Rule):
    """Werkzeug writes and compiles two functions a rule at once: for all rules together a fourteenth of a start."""

    def _compile_builder(self, append_unknown: bool = True) -> Builder:  # noqa: FBT001, FBT002 - Werkzeug's own
        @cache
        def written() -> Builder:
            return Rule._compile_builder(self, append_unknown)  # noqa: SLF001 - the method that this one puts off

        def build(rule: Rule, /, **values: Any) -> tuple[str, str]:
            return written()(rule, **values)

        return build
