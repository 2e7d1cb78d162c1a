"""The home place: from the list or typed, on a date, with house rules; wrong values are named and kept."""

import pytest

from app.services.places import list_places
from tests.web.browsing import Browser

FORM = "//main//form"
RULES = {
    "region": "",
    "rollout_rule": "latitude",
    "allowance_deg": "30",
    "rate_rule": "fifteen-percent",
    "pressure_unit": "",
    "feet_per_hpa": "30",
    "hi_limit_deg": "3",
    "check_limit_deg": "5",
    "card_limit_deg": "10",
}
LISTED = {"where": "listed", "place_id": "tussockdown", "when": "2026-09-01", **RULES}
TYPED = {"where": "typed", "latitude_deg": "45,32", "longitude_deg": "75.67 W", "when": "2026-09-01", **RULES}


def test_works(alice: Browser) -> None:
    page = alice.get_page("/home")
    assert "Otterlea, 1 Sept 2026" in page.words("//table/caption").replace("Sep ", "Sept ")
    assert len(page.find("//select[@id='place_id']//option")) == len(list_places("en"))
    assert page.find("//select[@id='place_id']//option[@selected]/@value") == ["otterlea"]


def test_another_airfield_is_kept(alice: Browser) -> None:
    page = alice.submit(alice.get_page("/home"), LISTED, form=FORM)
    assert page.words("//*[@role='status']").startswith("Kept. Drills that start from now on use Tussockdown")
    assert "Tussockdown" in alice.get_page("/").words("//p[@class='place-line']")
    assert page.find("//select[@id='place_id']//option[@selected]/@value") == ["tussockdown"]


def test_typed_coordinates_are_kept(alice: Browser) -> None:
    page = alice.submit(alice.get_page("/home"), TYPED, form=FORM)
    assert page.find("//input[@id='latitude_deg']/@value") == ["45.32"]
    assert page.find("//input[@id='longitude_deg']/@value") == ["-75.67"]
    assert page.find("//input[@value='typed']/@checked")


def test_started_drill_stays_where_it_began(alice: Browser) -> None:
    question = alice.start_drill("true-to-compass")
    address = alice.address
    alice.submit(alice.get_page("/home"), LISTED, form=FORM)
    later = alice.get_page(address)
    assert later.fields()["stamp"] == question.fields()["stamp"]
    assert "This drill started at Otterlea" in later.words("//main")


def test_house_rules_are_kept(alice: Browser) -> None:
    rules = {"rollout_rule": "allowance", "allowance_deg": "25", "region": "uk", "card_limit_deg": "8"}
    rules |= {"pressure_unit": "inhg", "feet_per_hpa": "27", "hi_limit_deg": "5", "check_limit_deg": "10"}
    page = alice.submit(alice.get_page("/home"), LISTED | rules, form=FORM)
    for name, value in rules.items():
        assert page.find(f"//select[@id='{name}']//option[@selected]/@value") == [value], name


@pytest.mark.parametrize(
    ("changes", "field", "said"),
    [
        ({"latitude_deg": "95"}, "latitude_deg", "95"),
        ({"latitude_deg": "abc"}, "latitude_deg", "“abc”"),
        ({"latitude_deg": ""}, "latitude_deg", "45.32"),
        ({"longitude_deg": "200"}, "longitude_deg", "200"),
        ({"when": "2031-01-01"}, "when", "2031-01-01"),
        ({"when": "tomorrow"}, "when", "“tomorrow”"),
        ({"when": ""}, "when", "2026-09-01"),
        ({"where": "listed", "place_id": "atlantis"}, "place_id", "“atlantis”"),
        ({"rollout_rule": "guess"}, "rollout_rule", "guess"),
        ({"allowance_deg": "7"}, "allowance_deg", "7"),
        ({"allowance_deg": "9" * 9000}, "allowance_deg", "999"),
        ({"region": "moon"}, "region", "moon"),
        ({"pressure_unit": "bar"}, "pressure_unit", "bar"),
        ({"feet_per_hpa": "28.5"}, "feet_per_hpa", "28.5"),
        ({"card_limit_deg": "x" * 500}, "card_limit_deg", "x"),
    ],
)
def test_shows_form_errors(alice: Browser, changes: dict[str, str], field: str, said: str) -> None:
    page = alice.submit(alice.get_page("/home"), TYPED | changes, form=FORM, status=422)
    assert said in page.words(f"//*[@id='{field}-refusal']")
    assert page.find(f"//*[@id='{field}' and @aria-invalid='true']")
    assert "Otterlea" in page.words("//p[@class='place-line']")
    if field.endswith("_deg") and changes.get(field) and field in {"latitude_deg", "longitude_deg"}:
        assert page.find(f"//input[@id='{field}']/@value") == [changes[field]]


def test_nothing_sent_is_said(alice: Browser) -> None:
    page = alice.get_page("/home")
    alice.send("/home", {"csrf_token": page.token}, status=422)


@pytest.mark.parametrize(
    ("changes", "setting"),
    [
        ({"place_id": "otterlea"}, "inHg"),
        ({"place_id": "tussockdown"}, "hPa"),
        ({"place_id": "otterlea", "region": "uk"}, "hPa"),
        ({"place_id": "tussockdown", "pressure_unit": "inhg"}, "inHg"),
    ],
)
def test_altimeter_settings_are_those_of_the_place(alice: Browser, changes: dict[str, str], setting: str) -> None:
    alice.submit(alice.get_page("/home"), LISTED | changes, form=FORM)
    assert setting in alice.start_drill("altimeter-missetting").words("//main")


@pytest.mark.parametrize(
    ("place", "said"), [("lastcairn", "turning rules fail"), ("meskel-plateau", "nearly level"), ("otterlea", "")]
)
def test_place_says_what_its_field_does(alice: Browser, place: str, said: str) -> None:
    page = alice.submit(alice.get_page("/home"), LISTED | {"place_id": place}, form=FORM)
    assert said in page.words("//main")


def test_questions_follow_the_place(alice: Browser, bob: Browser) -> None:
    bob.submit(bob.get_page("/home"), LISTED, form=FORM)
    assert alice.get_page("/?seed=5").fields()["stamp"] != "" != bob.get_page("/?seed=5").fields()["stamp"]
    assert "variation 2" in bob.get_page("/").words("//p[@class='place-line']")


def test_works_in_french(amelie: Browser) -> None:
    page = amelie.submit(amelie.get_page("/home"), LISTED, form=FORM)
    assert "Tussockdown" in page.words("//*[@role='status']")
    refused = amelie.submit(page, TYPED | {"latitude_deg": "abc"}, form=FORM, status=422)
    assert "« abc » n’est pas un nombre" in refused.words("//*[@id='latitude_deg-refusal']")
