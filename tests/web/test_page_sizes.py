"""What pages weigh on the wire: a first visit's share of a slow line, and what each question adds."""

import gzip
import re

import pytest

from tests.questions.engine import library
from tests.web.browsing import Browser

KB = 1000
ZIPPED = {"Accept-Encoding": "gzip"}
FIRST_VISIT_BYTES = 60 * KB
QUESTION_BYTES = 16 * KB
# The aim is 3.5 KB; round faces with turned numbers still need up to 4.
QUESTION_ZIPPED_BYTES = 4.1 * KB
WORKSHOP_ZIPPED_BYTES = 9 * KB
# Two plots and five drawings for whoever has no JavaScript; the track comes apart and is kept.
BENCH_ZIPPED_BYTES, TRACK_ZIPPED_BYTES, MAP_ZIPPED_BYTES = 17 * KB, 6 * KB, 18 * KB


def test_first_question_with_styles_scripts_and_fonts(alice: Browser) -> None:
    page = alice.get_page("/")
    sheets = [str(each) for each in page.find("//link/@href | //script/@src")]
    fonts = {name for sheet in sheets for name in re.findall(r"fonts/[\w-]+\.woff2", alice.get(sheet).text)}
    version = sheets[0].split("/")[2]
    addresses = ["/", *sheets, *(f"/static/{version}/{font}" for font in fonts)]
    assert len(fonts) == 2
    assert sum(len(alice.get(address, headers=ZIPPED).data) for address in addresses) <= FIRST_VISIT_BYTES


def test_deviation_workshop(alice: Browser) -> None:
    """It is fetched again at every move of a hand."""
    for enter in ("coefficients", "deviations", "readings"):
        assert len(alice.get(f"/bench/deviation?enter={enter}", headers=ZIPPED).data) <= WORKSHOP_ZIPPED_BYTES


def test_bench(alice: Browser) -> None:
    page = alice.get_page("/bench")
    assert len(alice.get("/bench", headers=ZIPPED).data) <= BENCH_ZIPPED_BYTES
    assert len(alice.get(page.find("//@data-track")[0], headers=ZIPPED).data) <= TRACK_ZIPPED_BYTES


def test_map_with_its_layers_and_land(alice: Browser) -> None:
    page = alice.get_page("/bench/map")
    files = {str(each).partition("#")[0] for each in page.find("//*[local-name()='use']/@href")}
    assert len(files) == 2
    sent = [alice.get(address, headers=ZIPPED).data for address in ("/bench/map", *files)]
    assert sum(map(len, sent)) <= MAP_ZIPPED_BYTES


@pytest.mark.parametrize("family", sorted(library().families))
def test_question(alice: Browser, family: str) -> None:
    alice.start_drill(family, length=2)
    for position in (1, 2):
        zipped = alice.get(alice.address.replace("/1", f"/{position}"), headers=ZIPPED).data
        assert len(gzip.decompress(zipped)) <= QUESTION_BYTES
        assert len(zipped) <= QUESTION_ZIPPED_BYTES
