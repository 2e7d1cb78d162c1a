"""The map: layers that caches keep, a table of sample places, a form that goes to the bench or to the home place."""

import pytest

from tests.web.browsing import Browser

MAP = "/bench/map?place_id=typed&latitude_deg=-43.5&longitude_deg=172.5&when=2026-09-01&start_deg=360&target_deg=90"


def test_page_has_layers_table_and_the_state(alice: Browser) -> None:
    page = alice.get_page(MAP)
    layers = {str(each).rpartition("#")[2] for each in page.find("//*[local-name()='use']/@href")}
    assert {"land", "caution", "blackout", "isogonals", "agonic", "isoclinals", "equator"} <= layers
    rows = page.find("//table[caption[@id='samples-caption']]/tbody/tr")
    assert len(rows) > 20
    assert page.find("//input[@id='latitude_deg']/@value") == ["-43.5"]
    assert page.find("//form[@id='map-form']/input[@name='start_deg']/@value") == ["360"]
    assert page.find("//*[@id='cross']/@transform") == ["translate(705.0 267.0)"]


def test_layers_are_kept_and_small(alice: Browser) -> None:
    response = alice.get("/bench/map.svg?day=2026-09-01&language=fr", headers={"Accept-Encoding": "gzip"})
    assert response.status_code == 200
    assert response.mimetype == "image/svg+xml"
    assert response.headers["Cache-Control"] == "public, max-age=604800"
    assert len(response.data) < 6000
    assert alice.get("/bench/map.svg?day=2031-09-01").status_code == 422
    assert alice.get("/bench/map.svg?day=soon").status_code == 422


def test_goes_to_the_bench_and_to_the_home_place(alice: Browser) -> None:
    sent = "latitude_deg=-43.5&longitude_deg=172.5"
    flown = alice.get_page(f"/bench?place_id=typed&where=typed&when=2026-09-01&{sent}")
    assert "-43.50, 172.50" in flown.words("//p[@class='place-line']")
    home = alice.get_page(f"/home?place_id=typed&where=typed&when=2026-09-01&{sent}")
    assert home.find("//input[@name='where' and @checked]/@value") == ["typed"]
    assert home.find("//input[@id='latitude_deg']/@value") == ["-43.5"]
    assert home.find("//select[@id='region']/option[@selected]")
    chosen = {"where": "typed", "when": "2026-09-01", "latitude_deg": "-43.5", "longitude_deg": "172.5"}
    alice.submit(home, chosen, "//form[@action='/home']")
    assert "-43.50" in alice.get_page("/home").text


@pytest.mark.parametrize("query", ["when=2040-01-01", "when=soon"])
def test_days_without_a_model(alice: Browser, query: str) -> None:
    page = alice.get_page(f"/bench/map?{query}", status=422)
    assert page.find("//p[@class='refusal']")
    assert not page.find("//*[local-name()='use']")


def test_in_french(amelie: Browser) -> None:
    page = amelie.get_page("/bench/map")
    assert any("language=fr" in str(each) for each in page.find("//*[local-name()='use']/@href"))
