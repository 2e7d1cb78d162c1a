"""The coastlines' command: a topology becomes one path in the map's units."""

import json
from pathlib import Path

from click.testing import CliRunner

from app.cli import root
from app.cli.coast import KEPT
from app.environment import ROOT

# Two squares in quarter degrees: one round 0 E, one across the date line, stored as a topology's steps.
TOPOLOGY = {
    "type": "Topology",
    "transform": {"scale": [0.25, 0.25], "translate": [-180, -90]},
    "objects": {"land": {"geometries": [{"type": "MultiPolygon", "arcs": [[[0]], [[-2]]]}]}},
    "arcs": [
        [[700, 340], [40, 0], [0, 40], [-40, 0], [0, -40]],
        [[1420, 400], [-1400, 0], [0, 40], [1400, 0], [0, -40]],
    ],
}


def coast(*arguments: str | Path) -> tuple[int, str]:
    result = CliRunner().invoke(root, ["coast", *map(str, arguments)])
    return result.exit_code, result.output


def test_draws_land_also_across_the_date_line(tmp_path: Path) -> None:
    source, drawn = tmp_path / "land.json", tmp_path / "coast.svg"
    source.write_text(json.dumps(TOPOLOGY), "utf-8")
    code, output = coast(source, "--out", drawn)
    assert code == 0, output
    text = drawn.read_text("utf-8")
    assert "M350 190l" in text
    assert text.count("M") == 3  # one square, and the other at both sides


def test_refuses_what_is_no_topology(tmp_path: Path) -> None:
    source = tmp_path / "land.json"
    source.write_text("{}", "utf-8")
    code, output = coast(source)
    assert code == 2
    assert "land-110m.json" in output


def test_file_kept_is_the_map_s(tmp_path: Path) -> None:
    assert KEPT == ROOT / "static" / "maps" / "coast.svg"
    assert KEPT.is_file()
    assert tmp_path
