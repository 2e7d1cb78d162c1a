"""An own question with numbers as the form sends it."""

from typing import Any

from tests.questions.own_reckoned import BODY


def as_sent(body: dict[str, Any] = BODY) -> dict[str, str]:
    """Return a question as the form's fields."""
    sent = {name: body[name] for name in ("topic", "grade", "source")}
    for n, number in enumerate(body["numbers"]):
        sent |= {f"numbers.{n}.{name}": str(value) for name, value in number.items()}
    sent |= {f"answer.{name}": str(value) for name, value in body["answer"].items()}
    sent |= {f"wrong.{n}": formula for n, formula in enumerate(body["wrong"])}
    for language in ("en", "fr"):
        words = body.get(language)
        if words:
            sent |= {f"{language}.{name}": words[name] for name in ("title", "situation", "question")}
            sent[f"{language}.why"] = "\n".join(words["why"])
            for n, each in enumerate(words["wrong"]):
                sent |= {f"{language}.wrong.{n}.{name}": text for name, text in each.items()}
    return sent
