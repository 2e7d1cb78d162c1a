"""Tables whose rows a phone shows as blocks: each cell says what it is of, and all keep their roles."""

import re

from markupsafe import Markup

HEADING = re.compile(r"<t[hd]\b[^>]*>(.*?)</t[hd]>", re.DOTALL)
# A heading for listeners alone names a column of buttons, which say themselves what they do.
UNSEEN = re.compile(r'<span class="hidden-words">.*?</span>|<[^>]*>', re.DOTALL)
PART = re.compile(r"<(thead|tbody|tr|th|td)(?=[ >])")
NOTHING = re.compile(r'<td(?: class="[a-z ]*")?>(?=\s*(?:–|<span class="soft">–</span>)?\s*</td>)')
ROLES = {"thead": "rowgroup", "tbody": "rowgroup", "tr": "row", "td": "cell"}


def in_blocks(markup: str) -> Markup:
    """Return head and body of a table with roles, and each cell of the body with its heading as `data-label`.

    A row's first cell needs none: it is what the block is about. A cell without a value is marked `says-nothing`.
    """
    head, end, body = str(markup).partition("</thead>")
    labels = [UNSEEN.sub("", text).strip() for text in HEADING.findall(head)]
    column = 0

    def labelled(found: re.Match[str]) -> str:
        nonlocal column
        name = found[1]
        column = 0 if name == "tr" else column + 1
        label = labels[column - 1] if name == "td" and 1 < column <= len(labels) else ""
        named = f' data-label="{label.replace(chr(34), "&quot;")}"' if label else ""
        return f'<{name} role="{ROLES.get(name, "rowheader")}"{named}'

    head = PART.sub(lambda found: f'<{found[1]} role="{ROLES.get(found[1], "columnheader")}"', head)
    body = PART.sub(labelled, NOTHING.sub('<td class="says-nothing">', body))
    return Markup(head + end + body)  # noqa: S704 - a template's own
