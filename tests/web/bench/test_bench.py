"""The bench's page: the whole state stands in its address, and whoever has no JavaScript sees stills and plots."""

import gzip
import json

import pytest

from tests.pages import Page
from tests.web.browsing import Browser

OTTAWA = "/bench?place_id=otterlea&when=2026-09-01"


def numbers(page: Page) -> dict[str, str]:
    names = ("time", "real", "reading", "settled", "bank")
    return {name: page.words(f"//*[@data-now='{name}']") for name in names}


def test_flies_at_the_home_place(alice: Browser) -> None:
    page = alice.get_page("/bench")
    assert page.heading == "Bench: fly the compass model"
    assert "Otterlea" in page.words("//p[@class='place-line']")
    assert page.find("//nav/a[@aria-current and @href='/bench']")


def test_link_is_the_state(alice: Browser, bob: Browser) -> None:
    """Right through north at rate one from west, Ottawa's dip of 69: north is passed while the card lags by 35."""
    address = f"{OTTAWA}&start_deg=270&target_deg=90&turn=right&rate=one&tas_kt=100&at=35.5"
    page = alice.get_page(address)
    assert numbers(page)["real"] == "360"
    assert numbers(page)["reading"] == "325"
    assert numbers(bob.get_page(page.find("//a[@class='state']/@href")[0])) == numbers(page)


def test_stills_plots_and_cues_come_from_the_server(alice: Browser) -> None:
    page = alice.get_page(f"{OTTAWA}&target_deg=360")
    assert {str(each) for each in page.find("//@data-still")} == {
        "drum",
        "heading-indicator",
        "tilted-card",
        "apparent-vertical",
        "card-plane",
        "turn-from-above",
    }
    assert len(page.find("//*[contains(@class, 'fig-time-plot')]")) == 2
    rows = ["".join(row.itertext()) for row in page.find("//table[caption[@id='cues-caption']]/tbody/tr")]
    assert [row.split("\n")[0] for row in rows] == ["1", "2", "3"]
    assert "307" in rows[0]
    assert "330" in rows[1]
    assert "chosen, not measured" in page.text


def test_track_is_the_page_s_own_numbers(alice: Browser) -> None:
    page = alice.get_page(f"{OTTAWA}&at=20")
    address = page.find("//@data-track")[0]
    response = alice.get(address, headers={"Accept-Encoding": "gzip"})
    track = json.loads(gzip.decompress(response.data))
    assert response.headers["Cache-Control"] == "public, max-age=86400"
    assert len(response.data) < 5000
    at = min(range(len(track["time"])), key=lambda i: abs(track["time"][i] - 20))
    assert f"{round(track['real'][at]) % 360 or 360:03d}" == numbers(page)["real"]
    assert f"{round(track['reading'][at]) % 360 or 360:03d}" == numbers(page)["reading"]


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("start_deg=abc", "“abc” is not a heading"),
        ("start_deg=400", "400 is not a heading"),
        ("tas_kt=fast", "“fast” is not a number"),
        ("tas_kt=900", "50 to 250"),
        ("doing=loop", "“loop” is not offered. Accepted: turn, speed, path, rough, free-fall."),
        ("place_id=nowhere", "“nowhere” is not offered"),
        ("when=2040-01-01", "2025-01-01 to 2030-01-01"),
        ("when=soon", "“soon” is not a date"),
        ("place_id=typed", "latitude and longitude"),
        ("place_id=typed&latitude_deg=95&longitude_deg=0", "-90 to 90"),
        ("place_id=dip&dip_deg=90", "-89 to 89"),
        ("at=900", "900 s is not a moment"),
    ],
)
def test_errors_name_the_value_and_lose_nothing(alice: Browser, query: str, said: str) -> None:
    page = alice.get_page(f"/bench?target_deg=123&{query}", status=422)
    refused = [" ".join("".join(each.itertext()).split()) for each in page.find("//p[@class='refusal']")]
    assert len(refused) == 1
    assert said in refused[0]
    assert page.find("//input[@id='target_deg']/@value") == ["123"]
    assert not page.find("//@data-still")
    assert alice.get(f"/bench/track.json?{query}").status_code == 422


@pytest.mark.parametrize(
    ("query", "said", "drawn"),
    [
        ("doing=free-fall", "In free fall", False),
        ("place_id=typed&latitude_deg=86&longitude_deg=140", "Blackout zone", False),
        ("place_id=typed&latitude_deg=69.1&longitude_deg=-105.1", "Caution zone", True),
        ("rate=bank&bank_deg=30", "above the critical bank of 21°", True),
        ("rate=bank&bank_deg=18", "within 5° of the critical bank of 21°", True),
        ("place_id=dip&dip_deg=75", "the dip is over 72°", True),
        ("place_id=garua-bench", "nearly level", True),
    ],
)
def test_honest_edges(alice: Browser, query: str, said: str, drawn: bool) -> None:  # noqa: FBT001
    page = alice.get_page(f"/bench?{query}")
    assert any(said in "".join(each.itertext()) for each in page.find("//p[@class='notice']"))
    assert bool(page.find("//@data-still")) == drawn


def test_no_steady_card_above_the_critical_bank(alice: Browser) -> None:
    """Dip 69: 21 degrees. In the roll-in the card is still drawn; at 30 degrees of bank the page says why none is."""
    steep = f"{OTTAWA}&rate=bank&bank_deg=30"
    for at, steady in ((0, True), (20, False)):
        page = alice.get_page(f"{steep}&at={at}")
        drawn = {str(each) for each in page.find("//figure[not(@hidden)]/@data-still")}
        assert ({"tilted-card", "apparent-vertical", "card-plane"} <= drawn) == steady
        assert drawn & {"drum", "heading-indicator"}
        assert "turn-from-above" not in drawn
        assert bool(page.find("//p[@data-unsteady and not(@hidden)]")) == (not steady)
        assert (numbers(page)["settled"] == "–") == (not steady)
    plot = page.words("(//*[contains(@class, 'fig-time-plot')])[1]")
    assert "no delay" not in plot
    assert "no delay" in alice.get_page(OTTAWA).words("(//*[contains(@class, 'fig-time-plot')])[1]")


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("", "A turn to the right from 270 to 090 with 15° of bank."),
        ("&turn=left&target_deg=180&rate=half", "A turn to the left from 270 to 180 with 8° of bank."),
        ("&doing=speed&change_kt_s=-2.5", "On 270, in level flight. The airspeed falls by 25 kt in 10 s."),
        ("&doing=path&path=dive&seconds=12", "In a dive on 270. The airspeed rises by 24 kt in 12 s."),
        ("&doing=path&path=climb", "In a climb on 270. The airspeed rises by 20 kt in 10 s."),
        ("&doing=rough", "On 270 in rough air for 10 s."),
    ],
)
def test_says_what_is_flown(alice: Browser, query: str, said: str) -> None:
    assert alice.get_page(OTTAWA + query).words("//h1/following-sibling::p[1]") == said


@pytest.mark.parametrize("doing", ["speed", "path", "rough"])
def test_other_manoeuvres(alice: Browser, doing: str) -> None:
    page = alice.get_page(f"{OTTAWA}&doing={doing}&start_deg=090&at=13")
    assert numbers(page)["real"][:2] in {"09", "08"}
    assert not page.find("//caption[@id='cues-caption']")


def test_three_places_side_by_side(alice: Browser) -> None:
    page = alice.get_page("/bench/compare?start_deg=360&target_deg=90")
    dips = ["".join(each.itertext()) for each in page.find("//section/p[@class='magnetic']")]
    assert [("N" in each, "S" in each) for each in dips] == [(True, False), (False, True), (False, True)]
    assert len(page.find("//*[contains(@class, 'fig-time-plot')]")) == 3
    assert alice.get_page("/bench/compare?start_deg=x", status=422)


def test_projector_and_french(alice: Browser, amelie: Browser) -> None:
    assert alice.get_page("/bench?view=projector").find("//link[contains(@href, 'projector.css')]")
    page = amelie.get_page("/bench")
    assert page.heading == "Banc d’essai\u00a0: piloter le modèle du compas".replace("\u00a0", " ")
    assert page.find("//@data-cardinals") == ["N E S O"]


def test_asks_about_the_flight_and_shows_its_answer_on_the_bench(alice: Browser) -> None:
    page = alice.get_page(f"{OTTAWA}&target_deg=360")
    question = alice.submit(page, {}, "//form[@action='/bench/questions']")
    assert "Otterlea" in question.text
    choices = question.find("//input[@type='radio']/@value")
    reply = {question.find("//input[@type='radio']/@name")[0]: choices[0]}
    verdict = alice.submit(question, reply)
    link = verdict.find("//a[@class='bench-link']/@href")[0]
    flown = alice.get_page(link)
    assert flown.find("//input[@id='target_deg']/@value") == ["360"]
    assert flown.find("//@data-still")


def test_a_question_of_passing_a_heading_shows_that_moment(alice: Browser) -> None:
    page = alice.get_page(f"{OTTAWA}&passing=45")
    at = page.find("//input[@id='at']/@value")[0]
    assert at != alice.get_page(OTTAWA).find("//input[@id='at']/@value")[0]
    assert abs(int(numbers(page)["real"]) - 45) <= 1
    assert alice.get_page(f"{OTTAWA}&passing=45&at=1").find("//input[@id='at']/@value") == ["1.0"]


def test_asks_nothing_about_what_cannot_be_flown(alice: Browser) -> None:
    page = alice.get_page("/bench")
    sent = {"csrf_token": page.token, "target_deg": "x"}
    assert alice.send("/bench/questions", sent, status=422).find("//p[@class='refusal']")
