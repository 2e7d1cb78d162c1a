"""The page check itself: a good page passes, and each fault is found."""

import pytest

from tests.pages import Page

GOOD = (
    '<!doctype html><html lang="en"><head><title>Keys · Lubberline</title></head><body><main><h1>Keys</h1>'
    '<form action="/x" method="post"><input type="hidden" name="csrf_token" value="t">'
    '<label for="a">A</label><input id="a" name="a"></form>'
    '<svg viewBox="0 0 1 1"><title>A mark</title></svg><table><caption>T</caption></table></main></body></html>'
)


def test_good_page_passes() -> None:
    page = Page(GOOD)
    assert (page.heading, page.language, page.token) == ("Keys", "en", "t")


@pytest.mark.parametrize(
    ("good", "bad"),
    [
        ("<h1>Keys</h1>", "<h1>Keys</h1><h1>More</h1>"),
        ("<h1>Keys</h1>", "<h1> </h1>"),
        ("<h1>Keys</h1>", "<h1>Keys</h1><h3>Deep</h3>"),
        ("<h1>Keys</h1>", "<h1>undefined</h1>"),
        ("<h1>Keys</h1>", "<h1>Keys {{ name }}</h1>"),
        ("<h1>Keys</h1>", "<h1>%(count)s keys</h1>"),
        ("<h1>Keys</h1>", "<h1>Keys<em>unclosed</h1>"),
        ("<h1>Keys</h1>", "<h1><div>Keys</div></h1>"),
        ("<h1>Keys</h1>", '<h1 style="color: red">Keys</h1>'),
        ("<h1>Keys</h1>", "<h1>Keys</h1><style>h1 {}</style>"),
        ("<h1>Keys</h1>", "<h1>Keys</h1><script>go()</script>"),
        ("<h1>Keys</h1>", '<h1 id="a">Keys</h1>'),
        ("<h1>Keys</h1>", '<h1 aria-labelledby="nobody">Keys</h1>'),
        ("<h1>Keys</h1>", '<h1>Keys</h1><a href="/"></a>'),
        ("<h1>Keys</h1>", '<h1>Keys</h1><img src="/x">'),
        ("<h1>Keys</h1>", "<h1>Keys</h1><p>One key.<b>Two</b> keys.</p>"),
        (" · Lubberline", ""),
        ("<main>", "<div>"),
        ('lang="en"', ""),
        ('name="csrf_token" value="t"', 'name="other" value="t"'),
        ('action="/x"', ""),
        ('<label for="a">A</label>', ""),
        ("<title>A mark</title>", ""),
        ("<caption>T</caption>", ""),
    ],
)
def test_fault_is_found(good: str, bad: str) -> None:
    with pytest.raises(AssertionError):
        Page(GOOD.replace(good, bad, 1))
