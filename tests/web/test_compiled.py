"""What is compiled is kept for later starts: used for the same source alone, and never where the file is broken."""

from pathlib import Path

from jinja2 import DictLoader, Environment
from jinja2.compiler import CodeGenerator

from app.web.compiled import KeptTemplates, compiled


def test_made_once_for_one_source_and_anew_for_another_or_a_broken_file(tmp_path: Path) -> None:
    made, file = [], tmp_path / "kept"

    def of(source: bytes) -> bytes:
        return compiled(file, source, lambda: made.append(source) or source.upper())  # type: ignore[func-returns-value]

    assert [of(b"east"), of(b"east"), of(b"west"), of(b"west")] == [b"EAST", b"EAST", b"WEST", b"WEST"]
    file.write_bytes(file.read_bytes()[:-1])
    assert of(b"west") == b"WEST"
    assert made == [b"east", b"west", b"west"]


def test_folder_that_cannot_be_written_keeps_nothing_and_hurts_nobody(tmp_path: Path) -> None:
    assert compiled(tmp_path / "none" / "kept", b"east", lambda: b"EAST") == b"EAST"


def test_kept_template_is_found_again_and_a_broken_one_is_compiled_anew(tmp_path: Path) -> None:
    def written() -> str:
        kept = KeptTemplates(tmp_path, CodeGenerator, {"trim_blocks": True})
        pages = Environment(loader=DictLoader({"page": "{{ 6 * 7 }}"}), bytecode_cache=kept, autoescape=True)
        return pages.get_template("page").render()

    assert written() == "42"
    (file,) = tmp_path.glob("*.cache")
    whole = file.read_bytes()
    for length in range(0, len(whole), 7):
        file.write_bytes(whole[:length])
        assert written() == "42"
