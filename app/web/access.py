"""Closed by default: an endpoint answers the roles it declares; one that declares none keeps the app from starting."""

from collections.abc import Callable
from typing import Any, TypeVar

from flask import Flask, current_app, request

from app.services.actor import Role
from app.services.errors import NotAllowed
from app.web.current import actor

EVERYBODY = frozenset(Role)
ROLES = "allowed_roles"
View = TypeVar("View", bound=Callable[..., Any])


class UndeclaredEndpoints(RuntimeError):
    """Endpoints that say nobody may use them and nobody may not."""


def allow(*roles: Role) -> Callable[[View], View]:
    """Declare who may use an endpoint."""

    def declare(view: View) -> View:
        setattr(view, ROLES, frozenset(roles))
        return view

    return declare


def roles_by_endpoint(app: Flask) -> dict[str, frozenset[Role]]:
    """Return the whole table; raises UndeclaredEndpoints."""
    views = {rule.endpoint: app.view_functions[rule.endpoint] for rule in app.url_map.iter_rules()}
    silent = sorted(endpoint for endpoint, view in views.items() if not getattr(view, ROLES, None))
    if silent:
        raise UndeclaredEndpoints(f"no role may use {', '.join(silent)}: put @allow(...) on each view")
    return {endpoint: getattr(view, ROLES) for endpoint, view in views.items()}


def guard_requests(app: Flask) -> None:
    """Refuse, before each view, whoever it was not declared for. What is for everybody loads nobody."""
    roles_by_endpoint(app)
    app.before_request(_check_role)


def _check_role() -> None:
    if request.endpoint is None:
        return
    allowed = getattr(current_app.view_functions[request.endpoint], ROLES)
    if allowed != EVERYBODY and actor().role not in allowed:
        raise NotAllowed
