"""English and French: the catalogue, compiled once for all starts, and how pages write dates."""

from datetime import date, datetime
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from zoneinfo import ZoneInfo

from babel.dates import format_date, format_datetime, get_month_names
from babel.support import NullTranslations, Translations
from flask import Flask, g
from flask_babel import Babel, Domain
from markupsafe import Markup

from app.packs.spec import LANGUAGES, Language
from app.web.compiled import compiled
from app.web.current import TEXTS, actor, language

CATALOGUES = Path(__file__).with_name("translations")
DOMAIN = "messages"
KEPT = 8192  # texts of all pages in all languages, and room
NAMES: dict[Language, str] = {"en": "English", "fr": "Français"}
DAY, MOMENT = "d MMM y", "d MMM y HH:mm"


class Catalogues(Domain):  # type: ignore[misc] # flask-babel has no types
    """The texts of every language, and those of the request's language, looked up once a request."""

    def __init__(self, kept: Path) -> None:
        """`kept`: the folder that keeps what was compiled for the next start."""
        super().__init__([], DOMAIN)
        self._of = {each: read_catalogue(each, kept) for each in LANGUAGES}

    def get_translations(self) -> NullTranslations:
        """Return the texts in the language of this request; outside of one as the code says them."""
        try:
            texts: NullTranslations | None = g.get(TEXTS)
        except RuntimeError:
            return self._of["en"]
        if texts is None:
            texts = self._of[language()]
            setattr(g, TEXTS, texts)
        return texts

    def write(self, text: str, **values: object) -> Markup:
        """Return a text of a template, with its values escaped: a page holds dozens, so nothing stands in between."""
        written = _as_markup(self.get_translations(), text)
        return written % values if "%" in written else written


@lru_cache(maxsize=KEPT)
def _as_markup(texts: NullTranslations, text: str) -> Markup:
    return Markup(texts.gettext(text))  # noqa: S704 - the text is a template's own


def speak_languages(app: Flask) -> None:
    """Give templates and views their gettext; what Babel knows of a language is read here, so that workers share it."""
    Babel(app, locale_selector=language)
    domain = Catalogues(Path(app.instance_path))
    app.before_request(domain.as_default)
    app.jinja_env.filters.update(day=day, moment=moment)
    app.jinja_env.globals.update(language=language, other_languages=other_languages, _=domain.write)
    for each in LANGUAGES:
        get_month_names(locale=each)


def read_catalogue(of: Language, kept: Path) -> NullTranslations:
    """Return a language's texts, a file an area of the pages; English is what the code says."""
    if of == "en":
        return NullTranslations()
    sources = [file.read_bytes() for file in sorted((CATALOGUES / of / "LC_MESSAGES").glob("*.po"))]
    whole = compiled(kept / f"{DOMAIN}.{of}", b"".join(sources), lambda: _compile(of, sources))
    return Translations(BytesIO(whole))


def _compile(of: Language, sources: list[bytes]) -> bytes:
    from babel.messages import Catalog  # noqa: PLC0415 - only where texts have changed since the last start
    from babel.messages.mofile import write_mo  # noqa: PLC0415
    from babel.messages.pofile import read_po  # noqa: PLC0415

    texts, whole = Catalog(of), BytesIO()
    for source in sources:
        for message in read_po(BytesIO(source), of):
            if message.id:
                texts[message.id] = message
    write_mo(whole, texts)
    return whole.getvalue()


def other_languages() -> list[tuple[Language, str]]:
    """Return the languages one can switch to, each by its own name."""
    return [(each, name) for each, name in NAMES.items() if each != language()]


def day(iso: str | date) -> str:
    """Write a date as the page's language does: 25 Nov 2026."""
    when = iso if isinstance(iso, date) else date.fromisoformat(iso)
    return format_date(when, DAY, language())


def moment(when: datetime) -> str:
    """Write a moment by the clock of the reader's time zone, 24 hours: 25 Nov 2026 14:05."""
    return format_datetime(when.astimezone(ZoneInfo(actor().time_zone)), MOMENT, locale=language())
