"""How templates are put together: quickly, and with the parts that most pages share rendered once."""

from collections.abc import MutableMapping
from functools import lru_cache
from types import FunctionType, MethodType
from typing import Any

from flask import Flask, render_template, request
from flask.templating import Environment as FlaskEnvironment
from jinja2.runtime import Context, Macro
from markupsafe import Markup

from app.services.actor import Role
from app.web.current import actor, language

KEPT = 512


class PageContext(Context):
    """Calls what a template calls at once, a macro or a function of ours: Jinja first asks each whether it wants more.

    What does want more (Jinja marks it so) is called as Jinja does.
    """

    def call(
        self, called: Any, /, *given: Any, _loop_vars: object = None, _block_vars: object = None, **named: Any
    ) -> Any:
        """Return what a call in a template gives."""
        kind = type(called)
        if kind is Macro or (kind in (FunctionType, MethodType) and not called.__dict__):
            return called(*given, **named)
        return super().call(called, *given, _loop_vars=_loop_vars, _block_vars=_block_vars, **named)


class Environment(FlaskEnvironment):
    """Flask's own, with plain globals: they are copied for each part, and Jinja's chain of dicts is slow to copy."""

    context_class = PageContext

    def make_globals(self, d: MutableMapping[str, Any] | None) -> MutableMapping[str, Any]:
        """Return the globals of a template; those of the application are complete before the first one is loaded."""
        return {**self.globals, **(d or {})}


def keep_parts(app: Flask) -> None:
    """Give templates `shared_part("parts/place.html", home)`, which sees what it is given as `shown`.

    A part is kept by its language, role, page and what it is given, which is all that may be written in it: nothing
    of one person alone, no token, no time.
    """

    @lru_cache(maxsize=KEPT)
    def kept(name: str, of_page: tuple[str, Role, str | None, str], shown: object) -> Markup:
        del of_page
        return Markup(render_template(name, shown=shown))  # noqa: S704 - a template's own

    def part(name: str, shown: object = None) -> Markup:
        of_page = (language(), actor().role, request.endpoint, request.script_root)
        return kept(name, of_page, shown)

    app.jinja_env.globals["shared_part"] = part
