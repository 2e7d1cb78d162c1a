"""The forms of coming in. What is right is for the use case to say; the forms only read."""

from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from wtforms import PasswordField, StringField

from app.services.entrance import Claim


class ClaimForm(FlaskForm):  # type: ignore[misc] # the library has no types
    """Who somebody says they are."""

    school = StringField(lazy_gettext("School code"))
    login = StringField(lazy_gettext("Login name"))

    def claim(self) -> Claim:
        """Return what was claimed."""
        return Claim(self.school.data or "", self.login.data or "")


class SignInForm(ClaimForm):
    """Coming in with a password."""

    password = PasswordField(lazy_gettext("Password"))


class FirstSignInForm(ClaimForm):
    """Coming in with a one-time code and choosing a password."""

    code = StringField(lazy_gettext("One-time code"))
    password = PasswordField(lazy_gettext("A password of your own"))
