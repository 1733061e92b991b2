"""A page's forms as a browser without a script sends them: what stands in each box, and what is typed."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

from tests.screens.cast import Site


@dataclass
class Form:
    """One form: where it goes, how, and what stands in its boxes."""

    action: str
    method: str
    values: list[tuple[str, str]] = field(default_factory=list)
    labels: dict[str, str] = field(default_factory=dict)
    buttons: int = 0

    def facts(self) -> dict[str, str]:
        """Fact to the number of its row."""
        return {value: name.partition(".")[2] for name, value in self.values if name.startswith("fact.")}

    def typed(self, changes: dict[str, str]) -> list[tuple[str, str]]:
        """Everything it sends, with some facts typed anew."""
        numbers = self.facts()
        over = {f"value.{numbers[fact]}": text for fact, text in changes.items()}
        kept = [(name, value) for name, value in self.values if name not in over]
        return [*kept, *over.items()]


class Forms(HTMLParser):
    """Every form of a page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.forms: list[Form] = []
        self.at: Form | None = None
        self.select = ""
        self.first: str | None = None
        self.chosen: str | None = None
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        if tag == "form":
            self.at = Form(told.get("action") or "", told.get("method") or "get")
            self.forms.append(self.at)
        if self.at is None:
            return
        name, value = told.get("name") or "", told.get("value") or ""
        if tag == "button":
            self.at.buttons += 1
        elif tag == "input" and name and (told.get("type") != "radio" or "checked" in told):
            self.at.values.append((name, value))
        elif tag == "select":
            self.select, self.first, self.chosen = name, None, None
        elif tag == "option":
            self.first = value if self.first is None else self.first
            self.chosen = value if "selected" in told else self.chosen

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self.at = None
        if tag == "select" and self.at is not None and self.first is not None:
            # nothing chosen: a browser sends what stands first
            self.at.values.append((self.select, self.first if self.chosen is None else self.chosen))


def forms_of(at: Site, path: str, **query: str) -> list[Form]:
    """The forms of a page."""
    return Forms(at.page(path, **query)).forms


def form_of(at: Site, path: str, fact: str, /, **query: str) -> Form:
    """The form of a page that a fact is typed in."""
    (found,) = [form for form in forms_of(at, path, **query) if fact in form.facts()]
    return found


def press(at: Site, form: Form, changes: dict[str, str] | None = None) -> str:
    """Its button: where the person is sent then."""
    answer = at.client.post(
        form.action,
        data=_pairs(form.typed(changes or {})),
        headers={"accept": "text/html"},
        follow_redirects=False,
    )
    assert answer.status_code == 303, answer.text[:300]
    return answer.headers["location"]


def _pairs(pairs: list[tuple[str, str]]) -> dict[str, list[str]]:
    out: dict[str, list[str]] = {}
    for name, value in pairs:
        out.setdefault(name, []).append(value)
    return out
