"""What every page that a test fetches must hold: valid HTML, one heading, labels, tokens, ids, drawings with titles."""

import re
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import html5lib
from lxml import etree

PRODUCT = "Lubberline"
TYPED_APOSTROPHE = re.compile(r"\w+'\w+")
UNFILLED = re.compile(r"undefined|\{\{|\}\}|%\(\w+\)|Traceback|\bNone\b(?! of)")
NO_SPACE_BETWEEN = re.compile(r"[a-zà-ÿ]{2}[.!?][A-ZÀ-Ý][a-zà-ÿ]")
NAMED_BY_THEMSELVES = ("hidden", "submit", "button")
# Sounds, frames and foreign pages have no place here; scripts and styles only by address.
BLOCKS = " or ".join(f"self::{name}" for name in ("p", "div", "ul", "ol", "table", "form", "figure", "section"))
FORBIDDEN = (
    f"//*[self::h1 or self::h2 or self::h3 or self::p or self::span or self::label or self::button]//*[{BLOCKS}]",
    "//style",
    "//p[@class='refusal'][@role='alert'][not(@autofocus)][not(//form[starts-with(@class, 'bench')])]",
    "//script[not(@src)]",
    "//*[@style]",
    "//iframe",
    "//*[starts-with(@src, 'http')]",
)


class Page:
    """A fetched page as a tree, checked when it is made."""

    def __init__(self, text: str) -> None:
        self.text = text
        parser = html5lib.HTMLParser(html5lib.getTreeBuilder("lxml"), namespaceHTMLElements=False)
        self.tree = parser.parse(text)
        problems = [f"not valid HTML: {error}" for error in parser.errors]
        problems += _problems(self.tree)
        assert not problems, "\n".join(problems)

    def find(self, path: str) -> list[Any]:
        """Return the elements of an XPath."""
        found = self.tree.xpath(path)
        assert isinstance(found, list)
        return found

    def words(self, path: str) -> str:
        """Return the text of the first element of an XPath, spaces put together."""
        found = self.find(path)
        assert found, f"there is no {path}"
        return words_of(found[0])

    @property
    def title(self) -> str:
        return self.words("//title")

    @property
    def heading(self) -> str:
        return self.words("//h1")

    @property
    def language(self) -> str:
        return str(self.find("/html/@lang")[0])

    def fields(self, form: str = "//form[@id='answer']") -> dict[str, str]:
        """Return the hidden fields of a form, as a browser would send them."""
        return {each.get("name"): each.get("value") for each in self.find(f"{form}//input[@type='hidden']")}

    @property
    def token(self) -> str:
        return str(self.find("//input[@name='csrf_token']/@value")[0])


def words_of(element: Any) -> str:
    return " ".join("".join(element.itertext()).split())


def _problems(tree: etree._ElementTree) -> Iterator[str]:
    yield from _outline(tree)
    yield from _names(tree)
    yield from _forms(tree)
    for path in FORBIDDEN:
        yield from (f"{path} is not allowed: {each.tag}" for each in tree.xpath(path))
    shown = " ".join(tree.xpath("//body//text()[not(ancestor::script)]"))
    yield from (f"not filled in: {found.group()}" for found in UNFILLED.finditer(shown))
    yield from (f"an apostrophe as typed: {found.group()}" for found in TYPED_APOSTROPHE.finditer(shown))
    for paragraph in tree.xpath("//main//p"):
        stuck = NO_SPACE_BETWEEN.finditer(words_of(paragraph))
        yield from (f"no space between two sentences: {found.group()}" for found in stuck)


def _outline(tree: etree._ElementTree) -> Iterator[str]:
    headings = tree.xpath("//h1")
    if len(headings) != 1 or not words_of(headings[0]):
        yield f"{len(headings)} h1"
    titles = tree.xpath("/html/head/title")
    if len(titles) != 1 or not re.fullmatch(rf".*\S · {PRODUCT}", words_of(titles[0])):
        yield f"the title does not end with the product's name: {[words_of(each) for each in titles]}"
    if tree.xpath("string(/html/@lang)") not in {"en", "fr"}:
        yield "no language"
    if len(tree.xpath("//main")) != 1:
        yield "not one main"
    levels = [int(each.tag[1]) for each in tree.xpath("//*[self::h1 or self::h2 or self::h3 or self::h4]")]
    yield from (f"h{a} is followed by h{b}" for a, b in pairwise(levels) if b > a + 1)


def _names(tree: etree._ElementTree) -> Iterator[str]:
    ids = Counter(tree.xpath("//@id"))
    yield from (f"the id {name} stands {count} times" for name, count in ids.items() if count > 1)
    for attribute in ("aria-describedby", "aria-labelledby", "for", "form"):
        for value in tree.xpath(f"//@{attribute}"):
            yield from (f"{attribute} names {name}, which is not there" for name in value.split() if name not in ids)
    for drawing in tree.xpath("//*[local-name()='svg']"):
        titles = drawing.xpath("./*[local-name()='title']")
        if drawing.get("aria-hidden") != "true" and not (titles and words_of(titles[0])):
            yield "a drawing has no title"
    yield from ("an image has no alternative" for _ in tree.xpath("//img[not(@alt)]"))
    yield from ("a table has no caption" for _ in tree.xpath("//table[not(caption)]"))
    yield from ("a link has no words" for each in tree.xpath("//a") if not words_of(each))


def _forms(tree: etree._ElementTree) -> Iterator[str]:
    for form in tree.xpath("//form"):
        if not (form.get("action") or "").startswith("/"):
            yield "a form has no address of its own"
        if form.get("method", "get").lower() == "post" and not form.xpath(".//input[@name='csrf_token']/@value"):
            yield f"the form to {form.get('action')} carries no token"
    for field in tree.xpath("//input | //select | //textarea"):
        if field.get("type") in NAMED_BY_THEMSELVES:
            continue
        label = field.xpath("ancestor::label") or tree.xpath("//label[@for=$name]", name=field.get("id") or "")
        if not label or not words_of(label[0]):
            yield f"the field {field.get('name')} has no label"
