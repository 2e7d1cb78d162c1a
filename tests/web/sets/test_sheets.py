"""The printed sheets and their keys."""

import pytest

from tests.pages import words_of
from tests.web.members import OneSchool
from tests.web.sets.evening import Evening, evening_of

VERSION = "//section[@class='sheet']"


@pytest.fixture
def evening(school: OneSchool) -> Evening:
    return evening_of(school)


def test_each_version_says_its_letter_and_the_set(evening: Evening) -> None:
    evening.make()
    page = evening.ingrid.get_page(f"{evening.ingrid.address}/sheet?versions=4")
    heads = [words_of(each) for each in page.find(f"{VERSION}//div[@class='sheet-head']")]
    codes = {head.split(" · ")[0].split()[-1] for head in heads}
    assert [head.split(" · ")[1] for head in heads] == ["A", "B", "C", "D"]
    assert len(codes) == 1
    assert len(page.find(f"{VERSION}//p[@class='name-lines']")) == 4
    assert len(page.find(f"{VERSION}[1]//article")) == 10
    assert not page.find(f"{VERSION}//ol[@class='working']")


def test_sheet_tells_no_key(evening: Evening) -> None:
    evening.make(forms="typed", count="5")
    address = evening.ingrid.address
    keys = [words_of(each) for each in evening.ingrid.get_page(f"{address}/key").find("//div[@class='keyed']/ul")]
    assert len(keys) == 5
    sheet = evening.ingrid.get_page(f"{address}/sheet")
    assert not sheet.find("//*[@class='keyed']")


@pytest.mark.parametrize("query", ["versions=5", "versions=0", "versions=ten", "differ=colour"])
def test_what_is_not_offered_is_said(evening: Evening, query: str) -> None:
    evening.make()
    evening.ingrid.get_page(f"{evening.ingrid.address}/sheet?{query}", status=422)


def test_in_either_language_whatever_one_reads(evening: Evening) -> None:
    evening.make()
    address = evening.ingrid.address
    french = evening.ingrid.get_page(f"{address}/sheet?language=fr")
    assert french.language == "fr"
    assert "Nom" in french.words(f"{VERSION}//p[@class='name-lines']")
    assert evening.ingrid.get_page(f"{address}/sheet").language == "en"
    evening.ingrid.get_page(f"{address}/sheet?language=de", status=404)
