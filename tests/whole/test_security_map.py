"""The map of security requirements names only tests that exist."""

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
MAP = ROOT / "docs" / "security.md"


def test_every_named_test_exists() -> None:
    text = MAP.read_text("utf-8")
    code = "\n".join(file.read_text("utf-8") for file in (ROOT / "tests").rglob("*.py"))
    named = set(re.findall(r"`(test_\w+)`", text))
    assert len(named) > 30
    assert not {name for name in named if f"def {name}(" not in code}
    paths = re.findall(r"`((?:tests|app)/[\w/.]+)`", text)
    assert not [path for path in paths if not (ROOT / path).exists()]
