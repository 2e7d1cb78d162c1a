"""Pages as PDF, set by the project's own style and fonts; nothing is fetched from anywhere."""

from pathlib import Path
from typing import Any

from weasyprint import CSS, HTML
from weasyprint.text.fonts import FontConfiguration

STYLES = Path(__file__).resolve().parents[2] / "static" / "css"
SHEET = "@page { size: A4; margin: 15mm } header, footer, .skip, .actions { display: none }"


def pdf_of(page: str) -> bytes:
    """Return a rendered page as a PDF; addresses in it lead nowhere."""
    fonts = FontConfiguration()
    sheets = [CSS(string=(STYLES / f"{name}.css").read_text("utf-8"), font_config=fonts) for name in ("tokens", "site")]
    document = HTML(string=page, url_fetcher=_refuse)
    pdf: bytes = document.write_pdf(stylesheets=[*sheets, CSS(string=SHEET)], font_config=fonts)
    return pdf


def _refuse(url: str, *_: Any, **__: Any) -> dict[str, Any]:
    raise ValueError(f"{url[:80]} is not fetched for paper")
