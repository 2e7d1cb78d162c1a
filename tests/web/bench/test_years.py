"""Variation over the years: a curve, its tables, and what the two models are worth."""

from tests.web.browsing import Browser


def test_shows_the_home_place(alice: Browser) -> None:
    page = alice.get_page("/bench/years")
    assert page.heading == "Bench: variation over the years"
    assert len(page.find("//*[contains(@class, 'fig-year-plot')]")) == 2
    assert len(page.find("//table[caption[@id='present-caption']]/tbody/tr")) == 6
    assert len(page.find("//table[caption[@id='past-caption']]/tbody/tr")) == 26
    assert "Neither model knows the rock" in page.text


def test_place_of_the_address(alice: Browser) -> None:
    """London about 1900: some 16 degrees west; the agonic line has passed since. IGRF values, tested on their own."""
    page = alice.get_page("/bench/years?place_id=typed&latitude_deg=51.5&longitude_deg=-0.1&when=2026-09-01")
    rows = ["".join(row.itertext()) for row in page.find("//tbody/tr")]
    assert any(row.startswith("1900") and "16." in row and "W" in row for row in rows)
    assert any(row.startswith("2030") and "E" in row for row in rows)


def test_what_cannot_be_shown(alice: Browser, amelie: Browser) -> None:
    assert "does not change" in alice.get_page("/bench/years?place_id=dip&dip_deg=60&when=2026-09-01").text
    page = alice.get_page("/bench/years?place_id=typed&latitude_deg=95&longitude_deg=0", status=422)
    assert page.find("//p[@class='refusal']")
    assert amelie.get_page("/bench/years").find("//table")


def test_linked_from_the_bench(alice: Browser) -> None:
    links = alice.get_page("/bench").find("//p[contains(@class, 'bench-links')]/a/@href")
    assert any(str(link).startswith("/bench/years?") for link in links)
