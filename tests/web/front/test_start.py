"""The front page: one real question whose answer starts a drill."""

from tests.web.browsing import Browser


def test_works(alice: Browser) -> None:
    page = alice.get_page("/")
    assert page.title == "Ground school for compass and headings · Lubberline"
    assert len(page.find("//form[@id='answer']//input[@type='radio']")) >= 2
    assert page.find("//main//figure")
    assert page.find("//a[starts-with(@href, '/topics/')]")


def test_shows_a_compass_face(alice: Browser) -> None:
    """Drum or vertical card, of the question or of the home place, whichever the seeds give."""
    for _ in range(5):
        page = alice.get_page("/")
        assert "ompass" in " ".join(page.find("//main//figure//*[local-name()='title']/text()"))


def test_address_keeps_the_question(alice: Browser) -> None:
    first = alice.get_page("/?seed=77")
    assert alice.get_page("/?seed=77").heading == first.heading
    assert first.fields()["seed"] == "77"


def test_strange_seeds_give_any_question(alice: Browser) -> None:
    for seed in ("abc", "-1", "99999999999", "2147483648", ""):
        alice.get_page(f"/?seed={seed}")


def test_answer_starts_a_drill_of_ten(alice: Browser) -> None:
    verdict = alice.submit(alice.get_page("/"), {"choice": "0"})
    assert "Question 1 of 10" in verdict.title
    assert verdict.find("//section[@id='verdict' and @tabindex='-1']")
    following = alice.get_page(verdict.find("//a[contains(@class, 'next')]/@href")[0])
    assert "Question 2 of 10" in following.title


def test_answer_sent_twice_counts_once(alice: Browser) -> None:
    page = alice.get_page("/")
    alice.submit(page, {"choice": "0"})
    address = alice.address
    again = alice.submit(alice.get_page(f"/?seed={page.fields()['seed']}"), {"choice": "1"})
    assert alice.address == address
    assert "your first answer counts" in again.words("//section[@id='verdict']")


def test_shows_form_errors(alice: Browser) -> None:
    page = alice.get_page("/")
    refused = alice.submit(page, {}, status=422)
    assert "Nothing was answered" in refused.words("//*[@id='refusal']")
    assert refused.heading == page.heading
    assert refused.fields()["seed"] == page.fields()["seed"]


def test_other_numbers_than_shown_count_nothing(alice: Browser) -> None:
    refused = alice.submit(alice.get_page("/"), {"choice": "0", "stamp": "0" * 16}, status=409)
    assert "Nothing was counted" in refused.words("//*[@id='refusal']")


def test_without_a_seed_it_begins_anew(alice: Browser) -> None:
    page = alice.get_page("/")
    alice.submit(page, {"choice": "0", "seed": "none"})
    assert alice.address == "/"


def test_open_drill_can_be_gone_on_with(alice: Browser) -> None:
    alice.start_drill("true-to-compass")
    question = alice.address
    alice.get_page(alice.get_page("/").find("//main//a[starts-with(@href, '/drills/')]/@href")[0])
    assert alice.address == question


def test_works_in_french(amelie: Browser) -> None:
    page = amelie.get_page("/")
    assert page.language == "fr"
    assert page.title == "Cours au sol\u00a0: compas et caps · Lubberline".replace("\u00a0", " ")
    assert amelie.submit(page, {"choice": "0"}).language == "fr"
