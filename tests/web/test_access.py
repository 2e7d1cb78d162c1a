"""Who may use what: the whole table, and the factory that does not start without it."""

from collections.abc import Callable
from pathlib import Path

import pytest
from flask import Flask

from app.services.actor import Role
from app.web.access import EVERYBODY, UndeclaredEndpoints, allow, guard_requests, roles_by_endpoint
from app.web.factory import create_app
from app.web.settings import Settings
from tests.web.browsing import Browser

MEMBERS = frozenset({Role.STUDENT, Role.INSTRUCTOR, Role.SCHOOL})
TEACHING = frozenset({Role.INSTRUCTOR, Role.SCHOOL})
SCHOOLS = frozenset({Role.SCHOOL})
STUDENTS = frozenset({Role.STUDENT})
TABLE = {
    "account.accept_invitation": EVERYBODY,
    "account.change_account": MEMBERS,
    "account.change_password": MEMBERS,
    "account.end_all_sign_ins": MEMBERS,
    "account.end_sign_in": MEMBERS,
    "account.join": EVERYBODY,
    "account.make_school": EVERYBODY,
    "account.show_account": MEMBERS,
    "account.show_invitation": EVERYBODY,
    "account.show_join": EVERYBODY,
    "account.show_new_school": EVERYBODY,
    "school.invite": SCHOOLS,
    "school.show_invitations": SCHOOLS,
    "school.take_back": SCHOOLS,
    "account.first_sign_in": EVERYBODY,
    "account.show_first_sign_in": EVERYBODY,
    "account.show_sign_in": EVERYBODY,
    "account.sign_in": EVERYBODY,
    "account.sign_out": MEMBERS,
    "bench.ask_about_deviation": EVERYBODY,
    "bench.ask_about_it": EVERYBODY,
    "bench.compare_places": EVERYBODY,
    "bench.send_track": EVERYBODY,
    "bench.send_map": EVERYBODY,
    "bench.show_bench": EVERYBODY,
    "bench.show_map": EVERYBODY,
    "bench.show_years": EVERYBODY,
    "bench.show_deviation": EVERYBODY,
    "front.answer_start": EVERYBODY,
    "front.check_health": EVERYBODY,
    "front.set_home": EVERYBODY,
    "front.set_language": EVERYBODY,
    "front.show_about": EVERYBODY,
    "front.show_home": EVERYBODY,
    "front.show_keys": EVERYBODY,
    "front.show_reference": EVERYBODY,
    "front.show_start": EVERYBODY,
    "front.show_syllabus": EVERYBODY,
    "instructor.add_student": TEACHING,
    "instructor.change_role": SCHOOLS,
    "instructor.let_return": SCHOOLS,
    "instructor.let_leave": SCHOOLS,
    "instructor.sign_person_out": SCHOOLS,
    "instructor.show_roster": TEACHING,
    "instructor.export_roster": TEACHING,
    "instructor.add_roster": TEACHING,
    "instructor.show_person": TEACHING,
    "instructor.list_people": TEACHING,
    "instructor.give_code": TEACHING,
    "instructor.correct_person": TEACHING,
    "instructor.add_teacher": TEACHING,
    "instructor.archive_class": TEACHING,
    "instructor.close_joining": TEACHING,
    "instructor.list_classes": TEACHING,
    "instructor.make_class": TEACHING,
    "instructor.move_student": SCHOOLS,
    "instructor.open_joining": TEACHING,
    "instructor.remove_student": TEACHING,
    "instructor.remove_teacher": TEACHING,
    "instructor.rename_class": TEACHING,
    "instructor.add_entry": TEACHING,
    "instructor.print_training_record": TEACHING,
    "instructor.recommend": TEACHING,
    "instructor.send_training_record": TEACHING,
    "instructor.show_student": TEACHING,
    "instructor.make_recheck": TEACHING,
    "instructor.show_misses": TEACHING,
    "instructor.show_new_recheck": TEACHING,
    "instructor.show_weak_spots": TEACHING,
    "instructor.show_class": TEACHING,
    "school.erase": SCHOOLS,
    "school.export_cohorts": SCHOOLS,
    "school.show_cohorts": SCHOOLS,
    "school.name_school": SCHOOLS,
    "school.send_data": SCHOOLS,
    "school.set_bars": SCHOOLS,
    "school.set_house_rules": SCHOOLS,
    "school.set_retention": SCHOOLS,
    "school.show_erase": SCHOOLS,
    "school.show_settings": SCHOOLS,
    "school.change_exam_profile": SCHOOLS,
    "school.copy_exam_profile": SCHOOLS,
    "school.list_exam_profiles": SCHOOLS,
    "school.remove_exam_profile": SCHOOLS,
    "school.show_audit": SCHOOLS,
    "school.show_family_quality": TEACHING,
    "school.show_quality": TEACHING,
    "school.show_exam_profile": SCHOOLS,
    "school.show_report": TEACHING,
    "school.show_reports": TEACHING,
    "school.export_reports": TEACHING,
    "school.settle_report": SCHOOLS,
    "school.show_past_answers": SCHOOLS,
    "school.change_past_answers": SCHOOLS,
    "school.withdraw_question": SCHOOLS,
    "school.bring_question_back": SCHOOLS,
    "own.change": TEACHING,
    "own.give_back": TEACHING,
    "own.list_questions": TEACHING,
    "own.read_file": TEACHING,
    "own.release": TEACHING,
    "own.retire": TEACHING,
    "own.save_file": TEACHING,
    "own.show_change": TEACHING,
    "own.show_new": TEACHING,
    "own.show_question": TEACHING,
    "own.write": TEACHING,
    "sets.archive_set": TEACHING,
    "sets.assign": TEACHING,
    "sets.change_settings": TEACHING,
    "sets.copy_set": TEACHING,
    "sets.export_results": TEACHING,
    "sets.extend": TEACHING,
    "sets.lock_set": TEACHING,
    "sets.make_set": TEACHING,
    "sets.show_assign": TEACHING,
    "sets.show_assignment": TEACHING,
    "sets.show_class_sets": TEACHING,
    "sets.show_key": TEACHING,
    "sets.show_projected": TEACHING,
    "sets.show_new": TEACHING,
    "sets.show_set": TEACHING,
    "sets.show_sets": TEACHING,
    "sets.show_settings": TEACHING,
    "sets.show_sheet": TEACHING,
    "sets.swap_item": TEACHING,
    "sets.withdraw": TEACHING,
    "static": EVERYBODY,
    "student.answer_in_rehearsal": EVERYBODY,
    "student.ask_in_rehearsal": EVERYBODY,
    "student.end_rehearsal": EVERYBODY,
    "student.go_on_rehearsing": EVERYBODY,
    "student.list_rehearsals": EVERYBODY,
    "student.pause_rehearsal": EVERYBODY,
    "student.show_readiness": EVERYBODY,
    "student.show_rehearsal": EVERYBODY,
    "student.start_rehearsal": EVERYBODY,
    "student.answer_question": EVERYBODY,
    "student.drill_again": EVERYBODY,
    "student.hide_regraded": EVERYBODY,
    "student.hand_in": STUDENTS,
    "student.resume_drill": EVERYBODY,
    "student.send_report": EVERYBODY,
    "student.show_question": EVERYBODY,
    "student.send_own_data": EVERYBODY,
    "student.send_own_table": EVERYBODY,
    "student.show_record": EVERYBODY,
    "student.show_report": EVERYBODY,
    "student.show_today": EVERYBODY,
    "student.start_today": EVERYBODY,
    "student.show_sets": STUDENTS,
    "student.show_summary": EVERYBODY,
    "student.show_topic": EVERYBODY,
    "student.show_topics": EVERYBODY,
    "student.show_verdict": EVERYBODY,
    "student.start_drill": EVERYBODY,
    "student.start_sitting": STUDENTS,
}


def test_whole_table(app: Flask) -> None:
    assert roles_by_endpoint(app) == TABLE


def test_undeclared_endpoint_keeps_the_application_from_starting() -> None:
    app = Flask("open")
    app.add_url_rule("/open", "open", lambda: "open")
    with pytest.raises(UndeclaredEndpoints, match="open"):
        guard_requests(app)


def test_nobody_is_not_a_role() -> None:
    app = Flask("nobody", static_folder=None)
    app.add_url_rule("/closed", "closed", allow()(lambda: "closed"))
    with pytest.raises(UndeclaredEndpoints, match="closed"):
        guard_requests(app)


def test_refuses_other_role(run: Callable[..., Flask], settings: Settings) -> None:
    app = run(settings)
    app.add_url_rule("/class", "class", allow(Role.INSTRUCTOR)(lambda: "the class"))
    page = Browser(app).get_page("/class", status=403)
    assert page.heading == "This is not open to you"


def test_every_post_is_declared_apart_from_its_page(app: Flask) -> None:
    """A view that both shows and changes could be reached by a link."""
    changing = {"POST", "PUT", "PATCH", "DELETE"}
    mixed = [
        rule.endpoint
        for rule in app.url_map.iter_rules()
        if rule.methods and len(rule.methods & {"GET", *changing}) > 1
    ]
    assert not mixed


def test_addresses_are_in_kebab_case_and_their_parts_have_converters(app: Flask) -> None:
    assert not [rule.rule for rule in app.url_map.iter_rules() if rule.rule != rule.rule.lower()]
    untyped = {"family_id", "syllabus_id", "token", "topic_id", "version"}  # checked against what exists
    for rule in app.url_map.iter_rules():
        plain = {name for name in rule.arguments if type(rule._converters[name]).__name__ == "UnicodeConverter"}
        assert plain <= untyped, rule.rule


def test_every_template_is_used() -> None:
    folder = Path(create_app.__code__.co_filename).parent
    code = "\n".join(file.read_text("utf-8") for file in folder.rglob("*.py"))
    templates = sorted((folder / "templates").rglob("*.html"))
    markup = "\n".join(file.read_text("utf-8") for file in templates)
    names = [file.relative_to(folder / "templates").as_posix() for file in templates]
    by_form = [name for name in names if name.startswith("question/forms/")]
    assert not [name for name in names if f'"{name}"' not in code + markup and name not in by_form]
