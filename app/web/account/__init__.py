"""Coming in, going out, and one's own account."""

from app.web.account import entering, joining, new_school, own
from app.web.account.blueprint import account

__all__ = ["account", "entering", "joining", "new_school", "own"]
