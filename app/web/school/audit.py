"""The audit log, newest first."""

from uuid import UUID

from flask import render_template
from flask.typing import ResponseReturnValue
from flask_babel import lazy_gettext as _

from app.services.actor import Role
from app.services.audit import PAGE, list_entries
from app.web.access import allow
from app.web.current import actor, uow
from app.web.school.audit_words import more, subject
from app.web.school.blueprint import school

# What the log calls each action; sets and records name theirs here too.
DEEDS: dict[str, object] = {
    "school-made": _("made the school"),
    "signed-in": _("signed in"),
    "sign-in-refused": _("was refused at signing in"),
    "password-chosen-by-code": _("chose a password with a one-time code"),
    "class-made": _("made a class"),
    "class-renamed": _("renamed a class"),
    "class-archived": _("put a class away"),
    "class-brought-back": _("brought a class back"),
    "joining-opened": _("opened joining"),
    "joining-closed": _("ended joining"),
    "teacher-added": _("let somebody teach a class"),
    "teacher-removed": _("let somebody teach a class no more"),
    "student-added": _("added a student to a class"),
    "student-removed": _("took a student out of a class"),
    "student-moved": _("moved a student to another class"),
    "record-entry": _("made an entry in a training record"),
    "recommended": _("recommended a student for the written exam"),
    "school-changed": _("changed what the school has set"),
    "records-removed": _("old records went"),
    "data-exported": _("took a copy of all that is kept of somebody"),
    "person-erased": _("erased somebody"),
    "accounts-made": _("made accounts"),
    "roster-exported": _("saved a class as a table"),
    "cohorts-exported": _("saved classes side by side as a table"),
    "person-corrected": _("corrected a name or an e-mail address"),
    "code-given": _("gave out a one-time code"),
    "person-left": _("closed an account"),
    "person-returned": _("opened an account again"),
    "person-signed-out": _("signed somebody out everywhere"),
    "role-changed": _("changed a role"),
    "password-changed": _("changed their password"),
    "signed-out-elsewhere": _("signed out another browser of theirs"),
    "signed-out-everywhere": _("signed out everywhere"),
    "invited": _("invited somebody"),
    "invitation-taken-back": _("took an invitation back"),
    "invitation-used": _("made an account by invitation"),
    "joined-by-code": _("joined a class by its code"),
    "set-assigned": _("assigned a topic set"),
    "pass-mark-changed": _("changed a pass mark"),
    "set-extended": _("gave somebody more time"),
    "exam-profile-copied": _("copied an exam profile"),
    "exam-profile-changed": _("changed an exam profile"),
    "exam-profile-removed": _("took an exam profile away"),
    "set-withdrawn": _("took an assigned set back"),
    "reports-exported": _("saved the reports of problems as a table"),
    "report-settled": _("settled a report of a problem"),
    "answers-regraded": _("had past answers marked again"),
    "answers-set-aside": _("set past answers aside"),
    "answers-counted-again": _("let answers that were set aside count again"),
    "question-withdrawn": _("withdrew a kind of question"),
    "question-brought-back": _("brought a kind of question back"),
    "own-question-written": _("wrote a question of the school’s own"),
    "own-question-given-back": _("gave a question of the school’s own back to its writer"),
    "own-question-released": _("released a question of the school’s own"),
    "own-question-retired": _("let a question of the school’s own be asked no more"),
    "own-question-revived": _("let a question of the school’s own be asked again"),
    "results-exported": _("exported the results of a set"),
}


@school.get("/school/audit")
@school.get("/school/audit/<uuid:before>")
@allow(Role.SCHOOL)
def show_audit(before: UUID | None = None) -> ResponseReturnValue:
    """List what was done, a page at a time; older pages begin before an entry."""
    entries = list_entries(uow(), actor(), before)
    older = entries[-1].id if len(entries) == PAGE else None
    return render_template(
        "school/show_audit.html", entries=entries, older=older, before=before, deeds=DEEDS, more=more, subject=subject
    )
