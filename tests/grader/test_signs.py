"""A sign turned round is told as what it did: added what comes off, or took off what is added."""

import pytest

from app.grader.explain import explain
from app.grader.grade import grade
from app.grader.reply import Reply
from app.questions.draw import draw
from tests.questions.engine import home, library

DONE = {True: ("adds", "which is to be taken off"), False: ("takes off", "which is to be added")}


@pytest.mark.parametrize(("family", "toward_compass"), [("true-to-compass", True), ("compass-to-true", False)])
def test_it_says_what_was_done_and_what_was_due(family: str, toward_compass: bool) -> None:  # noqa: FBT001 - a case
    told = 0
    for seed in range(1, 40):
        item = draw(library(), family, seed, home(), "typed")
        wrong = dict(item.wrong_values())
        for name, given in (("v-sign", "variation_deg"), ("d-sign", "deviation_deg")):
            if name not in wrong:
                continue
            reply = Reply(wrong[name].value)
            why = explain(library(), item, reply, grade(library(), item, reply), "en")
            did = next((each.did for each in why.findings if each.id == name), "")
            done, due = DONE[(item.solution.given[given] > 0) == toward_compass]
            assert not did or (f"{reply.value:03.0f} {done} the " in did and due in did)
            told += bool(did)
    assert told > 20
