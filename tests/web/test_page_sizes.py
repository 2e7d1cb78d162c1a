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


@pytest.mark.parametrize("family", sorted(library().families))
def test_question(alice: Browser, family: str) -> None:
    alice.start_drill(family, length=2)
    for position in (1, 2):
        zipped = alice.get(alice.address.replace("/1", f"/{position}"), headers=ZIPPED).data
        assert len(gzip.decompress(zipped)) <= QUESTION_BYTES
        assert len(zipped) <= QUESTION_ZIPPED_BYTES
