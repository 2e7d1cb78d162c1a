"""The workshop's page: the whole state in its address, three ways to start, every refusal named, nothing lost."""

import json

import pytest

from tests.pages import Page
from tests.web.browsing import Browser

# NGA, Handbook of Magnetic Compass Adjustment (2004), ch. V par. 501: deviations on N, NE ... NW.
NGA = "on_360=10.5&on_045=20&on_090=11.5&on_135=-1.2&on_180=-5.5&on_225=-8&on_270=-12.5&on_315=-6.8"
EIGHT = f"/bench/deviation?enter=deviations&{NGA}"
SHEET = "360+358%0D%0A090+093%0D%0A180+180%0D%0A270+268"


def row(page: Page, caption: str, place: int) -> list[str]:
    cells = page.find(f"//table[caption[@id='{caption}']]/tbody/tr[{place}]/*")
    return [" ".join("".join(cell.itertext()).split()) for cell in cells]


def notices(page: Page) -> str:
    return " ".join("".join(each.itertext()) for each in page.find("//div[@data-live='notes']"))


def test_starts_from_a_sample(alice: Browser) -> None:
    page = alice.get_page("/bench/deviation")
    assert page.heading == "Bench: the deviation workshop"
    assert "qualified maintenance person" in page.words("//p[contains(@class, 'caution-note')]")
    assert len(page.find("//*[contains(@class, 'fig-deviation-curve')]")) == 2
    assert len(page.find("//div[@class='placard']")) == 2
    assert page.find("//nav//a[@aria-current and contains(@href, 'enter=coefficients')]")


def test_published_swing_on_the_page(alice: Browser) -> None:
    page = alice.get_page(EIGHT)
    assert row(page, "coefficients-caption", 1)[1:] == ["1.0° E", "11.9° E", "8.0° E", "5.0° E", "1.5° E"]
    assert row(page, "coefficients-caption", 2)[1:] == ["1.0° E", "12.0° E", "8.0° E", "5.0° E", "1.5° E"]
    assert row(page, "readings-caption", 2) == ["045", "025", "20.0° E", "20.1° E", "0.1° W"]
    assert row(page, "steps-caption", 2)[2:] == ["10.5° E", "10.5° E", "0°"]


def test_link_is_the_state(alice: Browser, bob: Browser) -> None:
    page = alice.get_page(f"{EIGHT}&step=3")
    again = bob.get_page(page.find("//a[@class='state']/@href")[0])
    assert again.find("//main//table")
    assert row(again, "coefficients-caption", 3) == row(page, "coefficients-caption", 3)
    assert row(again, "coefficients-caption", 3)[0] == "left after step 3"
    assert again.find("//a[@aria-current='step']/text()") == ["3"]


@pytest.mark.parametrize("step", range(6))
def test_each_step_has_its_curve_and_card(alice: Browser, step: int) -> None:
    page = alice.get_page(f"/bench/deviation?coefficient_b_deg=12&step={step}")
    assert len(page.find("//table[caption[@id='left-caption']]/tbody/tr")) == step + 1
    assert len(page.find("//div[@class='placard']")) == (2 if step else 1)


def test_going_over_to_another_way_keeps_the_compass(alice: Browser) -> None:
    page = alice.get_page(EIGHT)
    found = row(page, "coefficients-caption", 1)[1:]
    for way in ("coefficients", "readings"):
        link = page.find(f"//div[@data-live='ways']//a[contains(@href, 'enter={way}')]/@href")[0]
        assert row(alice.get_page(link), "coefficients-caption", 1)[1:] == found


def test_the_way_one_is_on_keeps_every_decimal(alice: Browser) -> None:
    page = alice.get_page("/bench/deviation?coefficient_b_deg=2.34567&step=4")
    assert "coefficient_b_deg=2.34567" in page.find("//div[@data-live='ways']//a[@aria-current]/@href")[0]


@pytest.mark.parametrize("typed", ["3 W", "-3", "3W", "−3", "3,0 O", "-3.0°"])
def test_ways_to_type_a_deviation(alice: Browser, typed: str) -> None:
    page = alice.get_page(f"/bench/deviation?coefficient_a_deg={typed}")
    assert row(page, "coefficients-caption", 1)[1] == "3.0° W"


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("coefficient_b_deg=lots", "“lots” is not a number of degrees. Accepted: with E or W"),
        ("coefficient_b_deg=", "“” is not a number of degrees"),
        ("coefficient_b_deg=21", "A coefficient of 21 degrees is not taken here. Accepted: -20 to 20"),
        ("enter=deviations&on_090=45", "A deviation of 45 degrees"),
        ("enter=deviations&on_090=x", "“x” is not a number"),
        ("enter=readings&readings=360+357", "on the sheet: 1, too few"),
        ("enter=readings&readings=", "on the sheet: 0, too few"),
        ("enter=readings&readings=360+357%0A090+abc", "Line 2, “090 abc”"),
        ("enter=guess", "“guess” is not offered. Accepted: coefficients, deviations, readings."),
        ("step=9", "“9” is not offered. Accepted: 0, 1, 2, 3, 4, 5."),
    ],
)
def test_refusals_name_the_value(alice: Browser, query: str, said: str) -> None:
    page = alice.get_page(f"/bench/deviation?{query}", status=422)
    refused = [" ".join("".join(each.itertext()).split()) for each in page.find("//p[@class='refusal']")]
    assert len(refused) == 1
    assert said in refused[0]
    assert not page.find("//*[contains(@class, 'fig-deviation-curve')]")


def test_nothing_is_lost_by_a_refusal(alice: Browser) -> None:
    page = alice.get_page("/bench/deviation?enter=deviations&on_045=7.5+W&on_090=x", status=422)
    assert page.find("//input[@id='on_045']/@value") == ["7.5 W"]
    assert page.find("//input[@id='on_090']/@value") == ["x"]
    sheet = alice.get_page("/bench/deviation?enter=readings&readings=360+357%0A090+abc", status=422)
    assert sheet.find("//textarea[@id='readings']")[0].text == "360 357\n090 abc"


def test_a_field_of_another_way_does_not_stand_in_the_way(alice: Browser) -> None:
    assert alice.get_page("/bench/deviation?enter=coefficients&on_090=x")


def test_four_readings_and_their_honest_edge(alice: Browser) -> None:
    page = alice.get_page(f"/bench/deviation?enter=readings&readings={SHEET}")
    assert "fix no more than A, B and C" in notices(page)
    assert row(page, "readings-caption", 1)[:3] == ["360", "358", "2.0° E"]
    assert not page.find("//td[contains(., 'five sums')]")


def test_a_compass_without_a_card(alice: Browser) -> None:
    page = alice.get_page("/bench/deviation?coefficient_b_deg=20&coefficient_c_deg=20&coefficient_a_deg=10")
    assert "As found there is no card to draw" in notices(page)
    assert len(page.find("//div[@class='placard']")) == 1


def test_turning_the_instrument_says_which_way(alice: Browser) -> None:
    """A deviation that is east everywhere: the compass shows too little, so its case is turned clockwise."""
    for size, said in (("2", "instrument clockwise"), ("-2", "counter-clockwise"), ("0", "Nothing to turn")):
        page = alice.get_page(f"/bench/deviation?coefficient_a_deg={size}")
        assert said in row(page, "steps-caption", 6)[1]


def test_frame_of_the_points(alice: Browser) -> None:
    page = alice.get_page(EIGHT)
    wide, narrow = (json.loads(each) for each in page.find("//@data-frame"))
    assert len(wide["across"]) == len(narrow["across"]) == 8
    assert wide["span"] == narrow["span"] == 25
    kept = json.loads(alice.get_page(f"{EIGHT}&span_deg=30").find("//@data-frame")[0])
    assert kept["span"] == 30
    assert json.loads(alice.get_page(f"{EIGHT}&span_deg=900").find("//@data-frame")[0])["span"] == 25


def test_projector_french_and_the_way_from_the_bench(alice: Browser, amelie: Browser) -> None:
    page = alice.get_page("/bench/deviation?view=projector&step=2")
    assert page.find("//link[contains(@href, 'projector.css')]")
    french = amelie.get_page(f"{EIGHT}")
    assert french.heading == "Banc d’essai : l’atelier de la déviation"
    assert row(french, "coefficients-caption", 1)[2] == "11,9° E"
    assert row(french, "readings-caption", 3)[1] == "078,5"
    assert amelie.get_page("/bench/deviation").find("//input[@id='coefficient_c_deg']/@value") == ["4,5"]
    assert alice.get_page("/bench").find("//main//a[@href='/bench/deviation']")


def test_asks_about_the_swing_and_comes_back_with_its_own_table(alice: Browser) -> None:
    question = alice.submit(alice.get_page(EIGHT), {}, "//form[@action='/bench/deviation/questions']")
    assert "swing" in question.text
    fields = dict.fromkeys(question.find("//form[@id='answer']//input[@type='text']/@name"), "1")
    for name in set(question.find("//form[@id='answer']//input[@type='radio']/@name")):
        fields[name] = question.find(f"//input[@name='{name}']/@value")[0]
    verdict = alice.submit(question, fields)
    link = verdict.find("//a[@class='bench-link']/@href")
    table = question.find("//table[contains(caption, 'Readings of a swing')]")
    assert bool(link) == bool(table)
    if link:
        assert alice.get_page(link[0]).find("//caption[@id='readings-caption']")


def test_asks_nothing_about_what_cannot_be_worked_out(alice: Browser) -> None:
    page = alice.get_page("/bench/deviation")
    sent = {"csrf_token": page.token, "coefficient_a_deg": "x"}
    assert alice.send("/bench/deviation/questions", sent, status=422).find("//p[@class='refusal']")
