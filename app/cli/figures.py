"""Write one page with every figure, for a person to look at: on a page, at 60 mm on paper, and in words."""

from base64 import b64encode
from collections.abc import Iterator
from html import escape
from pathlib import Path

import click

from app.cli import Refused
from app.cli.packs import language_option
from app.environment import ROOT
from app.figures import draw_figure
from app.figures.model import FigureCall
from app.figures.samples import SAMPLES
from app.packs.spec import Language

SHEET = "figures.html"
STYLES = ("tokens", "figures")
LAYOUT = """
body { background: var(--paper); color: var(--ink); font-family: sans-serif; margin: 24px; }
section { border-top: 1px solid; display: flex; flex-wrap: wrap; gap: 24px; padding: 16px 0; }
section > * { flex: 1 1 16rem; max-width: 28rem; min-width: 0; }
section > .paper { align-self: flex-start; background: white; flex: 0 0 60mm; width: 60mm; }
"""


@click.command()
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), required=True, help="Folder for the page.")
@language_option
def command(out: Path, language: Language) -> None:
    """Write a page of all figures, figures.html, into the folder OUT."""
    try:
        out.mkdir(parents=True, exist_ok=True)
        (out / SHEET).write_text(sheet(language), "utf-8")
    except OSError as error:
        raise Refused(f"--out {out} cannot be written: {error.strerror}.") from error
    click.echo(f"{len(SAMPLES)} figures in {out / SHEET}")


def sheet(language: Language) -> str:
    """Return the whole page; it stands alone."""
    styles = "\n".join((ROOT / "static" / "css" / f"{name}.css").read_text("utf-8") for name in STYLES)
    return "\n".join(
        [
            f'<!doctype html>\n<html lang="{language}">\n<head><meta charset="utf-8"><title>Figures</title>',
            f"<style>{styles}{LAYOUT}</style></head>\n<body>\n<h1>Figures</h1>",
            *_sections(language),
            "</body>\n</html>\n",
        ]
    )


def _sections(language: Language) -> Iterator[str]:
    for name, parameters in SAMPLES:
        call = FigureCall(name, parameters)
        shown, printed = draw_figure(call, language), draw_figure(call, language, "paper")
        yield f"<section><div><h2>{escape(name)}</h2><p>{escape(shown.description)}</p></div>"
        # As a picture of its own: the page's colours do not reach into it, as they do not reach paper.
        encoded = b64encode(printed.markup.encode()).decode()
        yield f'<div>{shown.markup}</div><img class="paper" alt="" src="data:image/svg+xml;base64,{encoded}"></section>'
