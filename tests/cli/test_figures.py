"""The sheet of all figures: one page that stands alone, in either language."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from app.cli import root
from app.figures import figure_names
from app.figures.samples import SAMPLES


@pytest.mark.parametrize("language", ["en", "fr"])
def test_shows_every_figure_on_a_page_and_on_paper(tmp_path: Path, language: str) -> None:
    result = CliRunner().invoke(root, ["figures", "--out", str(tmp_path / "new"), "--language", language])
    assert result.exit_code == 0, result.output
    page = (tmp_path / "new" / "figures.html").read_text("utf-8")
    assert page.count("<section>") == page.count('<img class="paper"') == len(SAMPLES)
    assert all(f"<h2>{name}</h2>" in page for name in figure_names())
    assert "http://" not in page.replace("http://www.w3.org/2000/svg", "")


def test_a_folder_that_cannot_be_made_is_refused(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("")
    result = CliRunner().invoke(root, ["figures", "--out", str(tmp_path / "taken" / "below")])
    assert result.exit_code == 2
    assert "cannot be written" in result.output
