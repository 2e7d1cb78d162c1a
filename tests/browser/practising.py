"""What tests do with a drill in a browser."""

from playwright.sync_api import Page, expect

CUT_OFF = """[...document.querySelectorAll('.scroller:has(> .blocks)')]
    .filter((each) => innerWidth <= 640 && each.scrollWidth > each.clientWidth)
    .map((each) => each.getAttribute('aria-label'))"""


def start_drill(page: Page, topic: str, *families: str) -> None:
    """Start a drill of ten, of a whole topic or of some of its families."""
    page.goto(f"/topics/{topic}")
    if families:
        for box in page.locator("input[name=family]").all():
            box.set_checked(box.get_attribute("value") in families)
    follow(page, "main form button.button")


def fill_in(page: Page, text: str = "045") -> None:
    """Give some answer, whatever the question's form."""
    form = page.locator("#answer")
    for select in form.locator("select").all():
        place = int((select.get_attribute("name") or "_0").rpartition("_")[2])
        count = select.locator("option").count() - 1
        select.select_option(index=1 + place % count)
    if form.locator(".options input").count():
        form.locator(".options input").first.check()
    for box in form.locator("input[type=text]").all():
        box.fill({"heading": text, "clock": "1200"}.get(box.get_attribute("data-kind") or "", "12"))
    for sides in form.locator(".sides").all():
        sides.locator("input").first.check()


def answer(page: Page) -> None:
    """Answer the question at hand and wait for its verdict."""
    fill_in(page)
    follow(page, "#answer button.button")
    expect(page.locator("#verdict")).to_be_visible()


def go_on(page: Page) -> None:
    follow(page, "a.next")


def follow(page: Page, selector: str) -> None:
    """Click what leads to another page, and wait for that page."""
    with page.expect_navigation():
        page.locator(selector).click()


def assert_fits(page: Page) -> None:
    """Nothing stands out of the page on its side, and no table that a phone shows in blocks is cut off there."""
    wide = page.evaluate("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
    assert wide[0] <= wide[1], page.url
    assert page.evaluate(CUT_OFF) == [], page.url
