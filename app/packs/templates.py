"""What a text in a pack may hold: `{{ name | filter }}`. No loops, conditions, arithmetic, calls or attributes."""

import re

from jinja2 import Environment, TemplateSyntaxError, nodes

FILTERS = frozenset({
    "arc", "clock", "degrees", "ew", "ew_letter", "exact", "heading", "hhmm", "lr", "minsec", "ns", "one", "plural_s",
    "point", "runway", "signed", "signed_exact", "signed_one", "signed_two", "size", "size_one", "thousands", "two",
    "whole", "word",
})  # fmt: skip
# Nearly every text is as plain as this; telling so is a hundred times as fast as parsing it.
_PLAIN = re.compile(r"[^{}]*(?:\{\{ [a-z]\w*(?: \| \w+)* \}\}[^{}]*)*")
PLACE = re.compile(r"\{\{\s*([a-z]\w*)((?:\s*\|\s*\w+)*)\s*\}\}")
BRACES = ("{{", "}}", "{%", "{#")
_RESERVED = frozenset({"true", "false", "none", "not", "and", "or", "in", "is", "if", "else"})
_PARSER = Environment(autoescape=False)  # noqa: S701 - parses only, renders nothing


def read_template(source: str) -> tuple[frozenset[str], tuple[str, ...]]:
    """Return the names a text uses and, in plain words, everything in it that is not allowed."""
    if _PLAIN.fullmatch(source):
        places = PLACE.findall(source)
        used = frozenset(name for name, _ in places)
        if not used & _RESERVED and {each for _, chain in places for each in chain.split(" | ")[1:]} <= FILTERS:
            return used, ()
    try:
        tree = _PARSER.parse(source)
    except TemplateSyntaxError as error:
        return frozenset(), (f"cannot be read as a text: {error.message}",)
    names: set[str] = set()
    problems: list[str] = []
    for node in tree.body:
        if not isinstance(node, nodes.Output):
            problems.append(f"a {type(node).__name__.lower()} block is not allowed")
            continue
        for part in node.nodes:
            if not isinstance(part, nodes.TemplateData):
                _walk(part, names, problems)
    if not problems and any(brace in PLACE.sub("", source) for brace in BRACES):
        problems.append("holds braces that are no place for a value")
    return frozenset(names), tuple(problems)


def _walk(node: nodes.Node, names: set[str], problems: list[str]) -> None:
    if isinstance(node, nodes.Name):
        names.add(node.name)
    elif isinstance(node, nodes.Filter) and node.node is not None:
        if node.name not in FILTERS:
            problems.append(f"filter {node.name!r} does not exist; there are {', '.join(sorted(FILTERS))}")
        if node.args or node.kwargs:
            problems.append(f"filter {node.name!r} takes no arguments")
        _walk(node.node, names, problems)
    else:
        problems.append(f"{type(node).__name__.lower()} is not allowed")
