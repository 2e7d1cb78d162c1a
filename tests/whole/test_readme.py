"""What a newcomer reads first is there and says the two commands."""

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_readme_shows_the_two_commands_and_links_to_what_exists() -> None:
    text = (ROOT / "README.md").read_text("utf-8")
    assert "python3 -m app    " in text
    assert "python3 -m app test" in text
    links = [part.split(")")[0] for part in text.split("](")[1:]]
    assert links
    assert all((ROOT / link).exists() for link in links)
