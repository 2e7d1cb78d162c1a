"""Coming in, going out, and one's own account."""

from app.web.account import entering
from app.web.account.blueprint import account

__all__ = ["account", "entering"]
