"""Instructors put sets together on pages."""

import re
from datetime import timedelta

import pytest

from app.services.actor import Role
from tests.fakes import Clock
from tests.pages import words_of
from tests.web.members import OneSchool, new_school
from tests.web.sets.evening import DEFAULTS, SET_FORM, Evening, evening_of

ITEMS = "//ol[@class='set-items']/li"
SETTINGS_FORM = "//form[contains(@action, '/settings')]"


@pytest.fixture
def evening(school: OneSchool) -> Evening:
    return evening_of(school)


def test_ten_items_with_the_form_as_it_stands(evening: Evening) -> None:
    """One tick and one button: what an instructor does in less than two minutes."""
    page = evening.ingrid.get_page("/topic-sets/new")
    sent = {field.get("name"): field.get("value") or "" for field in page.find(f"{SET_FORM}//input[@type='text']")}
    for field in page.find(f"{SET_FORM}//select"):
        sent[field.get("name")] = field.xpath("string(.//option[@selected]/@value)")
    made = evening.ingrid.submit(page, sent | {"topics": "datum"}, SET_FORM)
    assert made.heading == "Variation, deviation and conversions"
    assert len(made.find(ITEMS)) == 10
    assert len(made.find(f"{ITEMS}//details//ol[@class='working']")) == 10
    assert "the answer" in made.words(ITEMS + "[.//ol[@class='lettered']]")


def test_swapping_leaves_the_rest_and_next_week_it_is_identical(evening: Evening) -> None:
    before = [words_of(each) for each in evening.make().find(ITEMS)]
    address = evening.ingrid.address
    page = evening.ingrid.get_page(address)
    after = evening.ingrid.submit(page, {}, "//form[contains(@action, '/items/4/swap')]")
    words = [words_of(each) for each in after.find(ITEMS)]
    assert [a == b for a, b in zip(before, words, strict=True)] == [True] * 3 + [False] + [True] * 6
    again = evening.ingrid.get_page(address)
    assert [words_of(each) for each in again.find(ITEMS)] == words


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"count": "0"}, "0 questions; it has from 1 to 50"),
        ({"count": "1000"}, "1000 questions"),
        ({"count": ""}, "0 questions"),
        ({"count": "ten"}, "“ten” is not a whole number"),
        ({"fixed": "tea-leaves"}, "no kind of question “tea-leaves”"),
        ({"families": "tea-leaves"}, "no kind of question “tea-leaves”"),
        ({"topics": "astrology"}, "no topic “astrology”"),
        ({"forms": "order", "topics": "datum"}, "No question fits all of this"),
        ({"minutes": "-5"}, "-5 is out of range"),
        ({"pass_percent": "101"}, "101 is out of range"),
        ({"attempts_allowed": "0"}, "0 is out of range"),
        ({"place_id": "nowhere"}, "nowhere"),
        ({"reveal": "never"}, "“never” is not one of"),
    ],
)
def test_what_cannot_be_is_said_and_nothing_is_lost(evening: Evening, fields: dict[str, str], words: str) -> None:
    page = evening.ingrid.get_page("/topic-sets/new")
    typed = DEFAULTS | {"title": "My own title", "note": "Bring a plotter", "topics": "wind"} | fields
    refused = evening.ingrid.submit(page, typed, SET_FORM, status=422)
    assert words in refused.words("//p[@role='alert']")
    assert refused.find("//input[@name='title']/@value") == ["My own title"]
    assert refused.words("//textarea[@name='note']") == "Bring a plotter"
    assert "no topic set yet" in evening.ingrid.get_page("/topic-sets").words("//main")


def test_all_that_cannot_be_is_said_at_once(evening: Evening) -> None:
    page = evening.ingrid.get_page("/topic-sets/new")
    wrong = {"title": "x" * 121, "count": "ten", "minutes": "-5", "pass_percent": "101", "fixed": "tea-leaves\nmoss"}
    refused = evening.ingrid.submit(page, DEFAULTS | wrong, SET_FORM, status=422)
    said = {each.get("id"): words_of(each) for each in refused.find("//p[@role='alert']")}
    assert list(said) == [f"{name}-refusal" for name in ("title", "count", "fixed", "minutes", "pass_percent")]
    assert "“ten” is not a whole number" in said["count-refusal"]
    assert "tea-leaves, moss" in said["fixed-refusal"]
    kept = {name: refused.find(f"//input[@name='{name}']/@value") for name in wrong if name != "fixed"}
    assert kept == {name: [wrong[name]] for name in kept}
    assert refused.find("//textarea[@name='fixed']")[0].text == wrong["fixed"]


def test_a_fixed_list_takes_titles_and_shows_them_again(evening: Evening) -> None:
    titles = ["True to magnetic to compass", "Compass to magnetic to true"]
    typed = "true to MAGNETIC  to compass\nDu compas au magnétique au vrai\ntrue-to-compass compass-to-true"
    made = evening.make(fixed=typed, topics=[])
    assert [words_of(each).partition(". ")[2] for each in made.find(f"{ITEMS}//h3")] == 2 * titles
    again = evening.ingrid.get_page(made.find("//a[contains(@href, 'like=')]/@href")[0])
    assert again.find("//textarea[@name='fixed']")[0].text.split("\n") == 2 * titles


def test_all_settings_that_cannot_be_are_said_at_once(evening: Evening) -> None:
    evening.make()
    page = evening.ingrid.get_page(f"{evening.ingrid.address}/settings")
    wrong = {"title": "", "minutes": "soon", "attempts_allowed": "0"}
    refused = evening.ingrid.submit(page, DEFAULTS | wrong, SETTINGS_FORM, status=422)
    assert refused.find("//p[@role='alert']/@id") == [f"{name}-refusal" for name in wrong]


def test_two_editors_lose_nothing(evening: Evening) -> None:
    evening.make()
    address = evening.ingrid.address
    selma = evening.school.browser_of(evening.school.add(Role.SCHOOL, "Selma"))
    hers, his = selma.get_page(f"{address}/settings"), evening.ingrid.get_page(f"{address}/settings")
    selma.submit(hers, DEFAULTS | {"title": "Selma’s title"}, SETTINGS_FORM)
    refused = evening.ingrid.submit(his, DEFAULTS | {"title": "Ingrid’s title"}, SETTINGS_FORM, status=409)
    assert "Somebody has changed “Selma’s title”" in refused.words("//p[@role='alert']")
    assert refused.find("//input[@name='title']/@value") == ["Ingrid’s title"]
    assert evening.ingrid.get_page(address).heading == "Selma’s title"


def test_late_swap_leads_back_to_the_set(evening: Evening) -> None:
    page = evening.make()
    address = evening.ingrid.address
    evening.ingrid.submit(page, {}, "//form[contains(@action, '/items/1/swap')]")
    refused = evening.ingrid.submit(page, {}, "//form[contains(@action, '/items/2/swap')]", status=409)
    assert "changed" in refused.words("//main")
    assert refused.find(f"//main//a[@href='{address}']")
    stale = {"csrf_token": page.token, "version": "one"}
    assert "which version" in evening.ingrid.send(f"{address}/lock", stale, status=409).words("//main")


def test_pass_marks_old_and_new_are_shown(evening: Evening, clock: Clock) -> None:
    evening.make()
    address = evening.ingrid.address
    clock.forward(timedelta(days=1))
    page = evening.ingrid.get_page(f"{address}/settings")
    shown = evening.ingrid.submit(page, DEFAULTS | {"title": "T", "pass_percent": "80"}, SETTINGS_FORM)
    row = shown.words("//tr[contains(., 'Pass mark')]")
    assert re.search(r"80 since .*Ingrid ?70 since", row)


def test_copy_lock_archive_and_back(evening: Evening) -> None:
    first = evening.make()
    address = evening.ingrid.address
    locked = evening.ingrid.submit(first, {}, "//form[contains(@action, '/lock')]")
    assert not locked.find("//form[contains(@action, '/swap')]")
    copied = evening.ingrid.submit(locked, {}, "//form[contains(@action, '/copy')]")
    assert copied.heading.endswith("(2)")
    evening.ingrid.submit(evening.ingrid.get_page(address), {}, "//form[contains(@action, '/archive')]")
    assert address not in evening.ingrid.get_page("/topic-sets").text
    assert address in evening.ingrid.get_page("/topic-sets?archived=1").text
    evening.ingrid.submit(evening.ingrid.get_page(address), {}, "//form[contains(@action, '/archive')]")
    assert address in evening.ingrid.get_page("/topic-sets").text


def test_every_misconception_can_be_filled_in(evening: Evening) -> None:
    """Families may share one; each name of it, as a weak spot links to it, finds its words in the form."""
    for name in ("true-to-compass/v-sign", "compass-to-true/v-sign"):
        page = evening.ingrid.get_page(f"/topic-sets/new?misconception={name}")
        assert page.find("//select[@name='misconception']//option[@selected]/@value") == [name]


def test_form_filled_in_for_a_mistake_and_from_another_set(evening: Evening) -> None:
    page = evening.ingrid.get_page("/topic-sets/new?misconception=true-to-compass/v-sign")
    assert page.find("//select[@name='misconception']//option[@selected]/@value") == ["true-to-compass/v-sign"]
    evening.make(title="Winds", topics=["wind"], count="3")
    like = evening.ingrid.get_page(f"/topic-sets/new?like={evening.ingrid.address.rpartition('/')[2]}")
    assert like.find("//input[@name='topics'][@checked]/@value") == ["wind"]
    assert like.find("//input[@name='count']/@value") == ["3"]


def test_another_home_place_keeps_the_house_rules(evening: Evening) -> None:
    page = evening.make(place_id="tussockdown")
    assert "Tussockdown" in page.words("//tr[contains(., 'Home place')]")
    like = evening.ingrid.get_page(f"/topic-sets/new?like={evening.ingrid.address.rpartition('/')[2]}")
    assert like.find("//select[@name='place_id']//option[@selected]/@value") == ["tussockdown"]


def test_sets_of_another_school_do_not_exist(evening: Evening) -> None:
    evening.make()
    address = evening.ingrid.address
    elsewhere = new_school(evening.school.app)
    dora = elsewhere.browser_of(elsewhere.add(Role.INSTRUCTOR, "Dora"))
    token = dora.get_page("/topic-sets").token
    for path in ("", "/settings", "/assign", "/sheet", "/key"):
        dora.get_page(address + path, status=404)
        evening.alice.get_page(address + path, status=403)
    for path in ("/lock", "/copy", "/archive", "/items/1/swap"):
        dora.send(address + path, {"csrf_token": token, "version": "1"}, status=404)
    dora.get_page(f"/topic-sets/new?like={address.rpartition('/')[2]}", status=404)


def test_works_in_french(evening: Evening) -> None:
    amelie = evening.school.browser_of(evening.school.add(Role.INSTRUCTOR, "Amélie", "fr"), "fr")
    page = amelie.get_page("/topic-sets/new")
    made = amelie.submit(page, DEFAULTS | {"topics": "datum"}, SET_FORM)
    assert made.heading == "Déclinaison, déviation et conversions"
    assert "la bonne réponse" in made.words("//ol[@class='set-items']")
