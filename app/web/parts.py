"""How templates are put together: quickly, and with the parts that most pages share rendered once."""

from collections.abc import MutableMapping
from functools import lru_cache
from types import FunctionType, MethodType
from typing import Any

from flask import Flask, render_template, request
from flask.templating import Environment as FlaskEnvironment
from jinja2.compiler import CodeGenerator, Frame
from jinja2.nodes import Expr
from jinja2.runtime import Context, Macro
from markupsafe import Markup, _escape_inner, escape  # type: ignore[attr-defined] # escapes without wrapping

from app.services.actor import Role
from app.web.current import actor, language

KEPT = 512
EDGE = "\0"  # of a hole, in a part as it is kept


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


class PageCode(CodeGenerator):
    """Has a template write what is markup already as it is: Jinja wraps each piece of a page anew."""

    def _output_child_pre(self, node: Expr, frame: Frame, finalize: Any) -> None:
        if frame.eval_ctx.autoescape and not frame.eval_ctx.volatile and finalize.src is None:
            self.write("environment.written(")
        else:
            super()._output_child_pre(node, frame, finalize)


class Environment(FlaskEnvironment):
    """Flask's own, with plain globals: they are copied for each part, and Jinja's chain of dicts is slow to copy."""

    context_class = PageContext
    code_generator_class = PageCode

    @staticmethod
    def written(value: Any) -> str:
        """Return a value as a page holds it, escaped unless it is markup."""
        kind = type(value)
        escaped: str = value if kind is Markup else _escape_inner(value) if kind is str else escape(value)
        return escaped

    def make_globals(self, d: MutableMapping[str, Any] | None) -> MutableMapping[str, Any]:
        """Return the globals of a template; those of the application are complete before the first one is loaded."""
        return {**self.globals, **(d or {})}


def keep_parts(app: Flask) -> None:
    """Give templates `shared_part("parts/place.html", home)`, which sees what it is given as `shown`.

    A part is kept by its language, role, page and what it is given, which is all that may be written in it: nothing
    of one person alone, no token, no time. Such goes into its holes, as in `shared_part("parts/frame.html", name=name)`
    where the part says `hole("name")`.
    """

    @lru_cache(maxsize=KEPT)
    def kept(name: str, of_page: tuple[str, Role, str | None, str], shown: object) -> tuple[str, ...]:
        del of_page
        return tuple(render_template(name, shown=shown).split(EDGE))

    def part(name: str, shown: object = None, /, **filled: object) -> Markup:
        of_page = (language(), actor().role, request.endpoint, request.script_root)
        pieces = list(kept(name, of_page, shown))
        pieces[1::2] = [Environment.written(filled[hole]) for hole in pieces[1::2]]
        return Markup("".join(pieces))  # noqa: S704 - a template's own, and what is filled in is escaped

    app.jinja_env.globals.update(shared_part=part, hole=hole)


def hole(name: str) -> Markup:
    """Return what stands in a kept part for a value of each page's own."""
    return Markup(f"{EDGE}{name}{EDGE}")  # noqa: S704 - the name is a template's own
