"""What the log notes, it also says in words."""

import re
from pathlib import Path

from app.services import audit
from app.web.school.audit import DEEDS

SERVICES = Path(audit.__file__).parent
# The first text with a hyphen in a call of the note functions is the action.
CALLS = re.compile(r'\bnote(?:_for|_of_person)?\([^"]*?"([a-z]+(?:-[a-z]+)+)"')


def test_every_action_has_its_words_on_the_logs_page() -> None:
    noted = {action for file in SERVICES.rglob("*.py") for action in CALLS.findall(file.read_text("utf-8"))}
    assert noted >= {"class-made", "signed-in", "sign-in-refused"}
    missing = noted - set(DEEDS)
    assert not missing, f"add their words to DEEDS in app/web/school/audit.py: {missing}"
