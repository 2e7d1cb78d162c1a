"""Choosing what to drill."""

from flask import render_template, request
from flask.typing import ResponseReturnValue

from app.services.drills import LENGTH, find_open_drill, list_topics
from app.services.families import get_topic, list_families
from app.services.withdrawals import offered
from app.web.access import allow
from app.web.current import actor, language, library, now, uow
from app.web.student.blueprint import PRACTISING, student

LENGTHS = (5, LENGTH, 20)


@student.get("/topics")
@allow(*PRACTISING)
def show_topics() -> ResponseReturnValue:
    """List the topics."""
    topics = list_topics(offered(uow(), actor(), library()), language())
    open_drill = find_open_drill(uow(), actor(), now())
    return render_template("student/show_topics.html", topics=topics, open_drill=open_drill, lengths=LENGTHS)


@student.get("/topics/<topic_id>")
@allow(*PRACTISING)
def show_topic(topic_id: str) -> ResponseReturnValue:
    """List the kinds of questions of one topic, those of the query ticked; all where it names none."""
    topic = get_topic(library(), topic_id, language())
    families = list_families(offered(uow(), actor(), library()), topic_id, language())
    asked = request.args.getlist("family") or [each.id for each in families]
    ticked = {each.id for each in families} & set(asked)
    return render_template("student/show_topic.html", topic=topic, families=families, ticked=ticked, lengths=LENGTHS)
