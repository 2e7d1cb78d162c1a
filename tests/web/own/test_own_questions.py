"""A question of a school's own, on pages: written, read by a second person, asked, saved to a file and read again."""

from io import BytesIO
from uuid import UUID

from app.services.actor import Role
from app.services.own_library import family_id
from tests.pages import Page, words_of
from tests.web.browsing import Browser
from tests.web.members import OneSchool, new_school
from tests.web.own.written import WRITTEN
from tests.web.sets.evening import DEFAULTS, SET_FORM, evening_of

FORM = "//form[@action='/own-questions']"
RELEASE, GIVE_BACK, RETIRE = (f"//form[contains(@action, '/{deed}')]" for deed in ("release", "give-back", "retire"))


def write(browser: Browser, status: int = 200, **changes: str) -> Page:
    return browser.submit(browser.get_page("/own-questions/new"), WRITTEN | changes, FORM, status)


def own_id(browser: Browser) -> UUID:
    return UUID(browser.address.rpartition("/")[2])


def test_from_the_draft_to_the_student(school: OneSchool, ingrid: Browser, selma: Browser) -> None:
    alice = school.browser_of(school.add(Role.STUDENT, "Alice"))
    draft = write(ingrid)
    assert draft.heading == "Where the lubber line stands"
    assert "no student meets it before it is released" in draft.text
    assert not draft.find(RELEASE)
    assert "<on the apron>" in draft.words("//article")
    address, family = ingrid.address, family_id(own_id(ingrid))
    assert "Where the lubber line stands" not in alice.get_page("/topics/principle").text
    read = selma.get_page(address)
    assert "Nothing against it" in read.text
    asked = selma.submit(read, {}, RELEASE)
    assert "Asked since" in asked.text
    assert "released by Selma" in asked.text
    assert "Where the lubber line stands" in alice.get_page("/topics/principle").text
    question = alice.start_drill(family, length=1)
    options = {
        words_of(label): label.find(".//input").get("value")
        for label in question.find("//label[.//input[@name='choice']]")
    }
    verdict = alice.submit(question, {"choice": options["the two magnets"]})
    assert "The magnets hold the card to the field." in verdict.text
    assert "Own lesson 3" in verdict.text


def test_what_cannot_be_kept_is_told_beside_its_field_and_nothing_typed_is_lost(ingrid: Browser) -> None:
    page = write(ingrid, 422, **{"en.key": "x" * 201, "en.wrong.1.did": "", "source": ""})
    assert "This has 201 characters. Accepted: 1 to 200." in page.words("//p[@id='en.key-refusal']")
    assert "Nothing is written here yet." in page.words("//p[@id='en.wrong.1.did-refusal']")
    assert page.find("//input[@id='source' and @aria-describedby='source-hint source-refusal']")
    kept = page.find("//textarea[@id='en.why']")[0]
    assert kept.text.strip().split("\n") == [
        "The card stays with the field.",
        "The line is painted on the bowl.",
    ]
    assert page.find("//input[@id='en.key']")[0].get("value") == "x" * 201


def test_given_back_changed_and_released_as_the_next_version(ingrid: Browser, selma: Browser) -> None:
    write(ingrid)
    address = ingrid.address
    refused = selma.submit(selma.get_page(address), {"reason": ""}, GIVE_BACK, 422)
    assert "Accepted: 1 to 500" in refused.text
    selma.submit(selma.get_page(address), {"reason": "Which source?"}, GIVE_BACK)
    assert "Which source?" in ingrid.get_page(address).text
    stale = selma.get_page(address)
    form = ingrid.get_page(f"{address}/change")
    ingrid.submit(form, WRITTEN | {"source": "TP 12880"}, "//form[contains(@action, '/change')]")
    assert "changed or released this question meanwhile" in selma.submit(stale, {}, RELEASE, 409).text
    selma.submit(selma.get_page(address), {}, RELEASE)
    kept = ingrid.submit(form, WRITTEN | {"en.key": "the line"}, "//form[contains(@action, '/change')]", 409)
    assert kept.find("//input[@id='en.key']")[0].get("value") == "the line"
    again = ingrid.get_page(f"{address}/change")
    changed = ingrid.submit(again, WRITTEN | {"grade": "hard"}, "//form[contains(@action, '/change')]")
    assert "version 2, not asked yet; version 1 is" in changed.text


def test_retired_and_asked_again(ingrid: Browser, selma: Browser) -> None:
    write(ingrid)
    address = ingrid.address
    selma.submit(selma.get_page(address), {}, RELEASE)
    assert "it is asked no more" in ingrid.submit(ingrid.get_page(address), {}, RETIRE).text
    assert "Asked since" in ingrid.submit(ingrid.get_page(address), {}, RETIRE).text


def test_retired_it_stays_in_a_set_that_was_given_out(school: OneSchool) -> None:
    evening = evening_of(school)
    selma = school.browser_of(school.add(Role.SCHOOL, "Selma"))
    write(evening.ingrid)
    address, family = evening.ingrid.address, family_id(own_id(evening.ingrid))
    selma.submit(selma.get_page(address), {}, RELEASE)
    evening.make(fixed=f"{family} true-to-compass", topics=[])
    evening.assign(evening.ingrid.address)
    evening.ingrid.submit(evening.ingrid.get_page(address), {}, RETIRE)
    page = evening.alice.submit(evening.alice.get_page("/sets"), {}, "//form[contains(@action, '/sittings')]")
    assert page.heading == "Which part of the compass stays with the aircraft?"
    refused = evening.ingrid.submit(
        evening.ingrid.get_page("/topic-sets/new"), DEFAULTS | {"fixed": family}, SET_FORM, 422
    )
    assert "There is no kind of question" in refused.words("//p[@id='fixed-refusal']")
    assert "Where the lubber line stands" not in evening.alice.get_page("/topics/principle").text


def test_a_file_that_was_saved_is_read_again(ingrid: Browser) -> None:
    write(ingrid)
    saved = ingrid.get("/own-questions.json")
    assert saved.headers["Content-Disposition"] == 'attachment; filename="own-questions.json"'
    page = ingrid.get_page("/own-questions")
    form = "//form[@action='/own-questions/file']"
    after = ingrid.submit(page, {"file": (BytesIO(saved.data), "own-questions.json")}, form)
    assert len(after.find("//tbody/tr")) == 2
    spoilt = saved.data.replace(b'"principle"', b'"weather"')
    refused = ingrid.submit(after, {"file": (BytesIO(spoilt), "own-questions.json")}, form, 422)
    assert "Look at question 1, topic. There is no topic “weather”" in refused.words("//p[@id='file-refusal']")
    assert len(refused.find("//tbody/tr")) == 2
    for nonsense in (b"", b"[]", b"\xff", b'{"questions": 3}', b"[" * 100_000):
        ingrid.submit(after, {"file": (BytesIO(nonsense), "x.json")}, form, 422)


def test_nothing_of_it_is_there_for_another_school_or_a_student(school: OneSchool, ingrid: Browser) -> None:
    write(ingrid)
    address = ingrid.address
    other = new_school(school.app)
    dora = other.browser_of(other.add(Role.INSTRUCTOR, "Dora"))
    assert "Where the lubber line" not in dora.get_page("/own-questions").text
    alice = school.browser_of(school.add(Role.STUDENT, "Alice"))
    for browser, status in ((dora, 404), (alice, 403)):
        for page in ("", "/change"):
            browser.get_page(address + page, status)
        fields = WRITTEN | {"edition": "1.0", "reason": "Mine.", "csrf_token": browser.get_page("/topics").token}
        for deed in ("change", "release", "give-back", "retire"):
            browser.send(f"{address}/{deed}", fields, status)


def test_where_kinds_are_listed_it_goes_by_its_title_and_leads_to_itself(ingrid: Browser, selma: Browser) -> None:
    write(ingrid)
    address, family = ingrid.address, family_id(own_id(ingrid))
    selma.submit(selma.get_page(address), {}, RELEASE)
    quality = ingrid.get_page(f"/school/quality/{family}")
    assert quality.heading == "Where the lubber line stands"
    assert quality.find(f"//a[@href='{address}']")
    offered = ingrid.get_page("/topic-sets/new").words("//main")
    assert "Where the lubber line stands own question" in offered
    assert family not in quality.words("//main") + offered


def test_the_log_tells_of_it(ingrid: Browser, selma: Browser) -> None:
    write(ingrid)
    address = ingrid.address
    selma.submit(selma.get_page(address), {}, RELEASE)
    log = selma.get_page("/school/audit").text
    assert "wrote a question of the school’s own" in log
    assert "released a question of the school’s own" in log
