"""The page's modules as one: they run as the browser's own module loader runs them."""

from __future__ import annotations

import base64
import hashlib
import subprocess
from html.parser import HTMLParser
from pathlib import Path

import pytest

from undertile.errors import InputError
from undertile.hosts.phone import build
from undertile.hosts.phone.join import joined, joined_in_two

MODULES = {
    "a/one.js": 'import { twice, size as big } from "./two.js";\nimport * as third from "../b/three.js";\n'
    "export const told = () => [twice(2), big, third.name(), third.back()].join();\n"
    "export function plain() { return 'one'; }\nconst hidden = 1;\n"
    "queueMicrotask(() => console.log(told(), hidden));\n",
    "a/two.js": "const hidden = 2;\nexport const size = 7;\nexport async function later() {}\n"
    "export function* each() {}\nexport class Kept {}\nexport function twice(x) { return hidden * x; }\n",
    "b/three.js": 'import { plain } from "../a/one.js";\nimport { size } from "../a/two.js";\n'
    "export const name = () => `three ${size}`;\nexport const back = () => plain();\n",
}


def test_joined_modules_do_what_the_loader_makes_of_them(node: str, tmp_path: Path) -> None:
    """Independent: Node's own module loader, with two that need each other and names that stand in both."""
    for name, text in MODULES.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    (tmp_path / "package.json").write_text('{"type": "module"}', encoding="utf-8")
    (tmp_path / "a" / "whole.js").write_text(joined("a/one.js", MODULES.__getitem__), encoding="utf-8")
    printed = [
        subprocess.run([node, str(tmp_path / "a" / name)], capture_output=True, text=True, check=True).stdout
        for name in ("one.js", "whole.js")
    ]
    assert printed[0] == printed[1] == "4,7,three 7,one 1\n"


IN_TWO = {
    "a/two.js": MODULES["a/two.js"],
    "b/four.js": 'import { size } from "../a/two.js";\nexport const name = () => `four ${size}`;\n',
    "a/first.js": 'import { size } from "./two.js";\nexport const own = "first";\n'
    'const at = new URL("rest.js", import.meta.url).href;\n'
    "import(at).then((rest) => console.log(rest.told, rest.more(), size));\n",
    "a/rest.js": 'import { size, twice } from "./two.js";\nimport { name } from "../b/four.js";\n'
    "export const told = [twice(size)].join();\nexport function more() { return name(); }\n",
}


def test_two_files_do_what_the_loader_makes_of_their_modules(node: str, tmp_path: Path) -> None:
    """Independent: Node's own module loader; no module stands in both."""
    printed = []
    for kind in ("plain", "joined"):
        texts = dict(IN_TWO)
        if kind == "joined":
            texts["a/first.js"], texts["a/rest.js"] = joined_in_two(
                "a/first.js", "a/rest.js", IN_TWO.__getitem__
            )
            assert "const hidden = 2" in texts["a/first.js"]
            assert "const hidden = 2" not in texts["a/rest.js"]
        for name, text in texts.items():
            path = tmp_path / kind / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        (tmp_path / kind / "package.json").write_text('{"type": "module"}', encoding="utf-8")
        command = [node, str(tmp_path / kind / "a" / "first.js")]
        printed.append(subprocess.run(command, capture_output=True, text=True, check=True).stdout)
    assert printed[0] == printed[1] == "14 four 7 7\n"


@pytest.mark.parametrize(
    "line",
    [
        'import one from "./two.js";',
        'export { size } from "./two.js";',
        "export default 1;",
        "export let size = 1;",
        'import "./two.js";',
    ],
)
def test_a_form_that_is_not_known_is_refused(line: str) -> None:
    with pytest.raises(InputError, match=r"x\.js, line 2: expected an import or export known here"):
        joined("x.js", lambda path: f"\n{line}\n")


class InPage(HTMLParser):
    """What stands in a page: its scripts and styles, and what is fetched for it beside."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.inside: dict[str, list[str]] = {"script": [], "style": []}
        self.policy, self.fetched, self._in = "", list[str](), ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self._in = tag if tag in self.inside else ""
        if told.get("http-equiv") == "Content-Security-Policy":
            self.policy = told["content"] or ""
        if (tag == "script" and "src" in told) or told.get("rel") == "stylesheet":
            self.fetched.append(tag)

    def handle_endtag(self, tag: str) -> None:
        self._in = ""

    def handle_data(self, data: str) -> None:
        if self._in:
            self.inside[self._in].append(data)


def allowed(policy: str, what: str) -> set[str]:
    """What a policy lets stand in the page, by hash."""
    (told,) = [part.split() for part in policy.split(";") if part.split()[:1] == [f"{what}-src"]]
    return {each for each in told if each.startswith("'sha256-")}


def test_the_page_and_the_worker_are_one_file_each_and_the_rest_of_the_page_is_a_second(bundle: Path) -> None:
    page = InPage((bundle / "index.html").read_text(encoding="utf-8"))
    worker = (bundle / build.WORKER).read_text(encoding="utf-8")
    for text in (worker, *page.inside["script"]):
        assert not [line for line in text.split("\n") if line.startswith(("import ", "export "))]
    assert not page.fetched
    (second, name) = sorted(path.name for path in (bundle / "shell").glob("*.js"))
    assert (second[:5], name) == ("rest-", "worker.js")
    assert f'import(new URL("{second}"' in page.inside["script"][0], "of another bundle it is not found"
    rest = (bundle / "shell" / second).read_text(encoding="utf-8")
    assert not [line for line in rest.split("\n") if line.startswith("import ")]


def test_the_policy_lets_run_what_stands_in_the_page_and_nothing_else(bundle: Path) -> None:
    """Published: a hash source is the base64 of the SHA-256 of the element's text (Content Security Policy
    Level 3). Independent: the page taken apart by another parser. The service worker says the same."""
    page = InPage((bundle / "index.html").read_text(encoding="utf-8"))
    by_worker = (bundle / "sw.js").read_text(encoding="utf-8").replace('" +\n  "', "")
    (header,) = [line for line in by_worker.split("\n") if "default-src" in line]
    for what, texts in page.inside.items():
        assert texts
        hashes = [base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() for text in texts]
        assert allowed(page.policy, what) == {f"'sha256-{each}'" for each in hashes}
        assert allowed(header.strip().strip('";'), what) == allowed(page.policy, what)
    assert "unsafe-inline" not in page.policy


@pytest.mark.parametrize("text", ["'</script >'", '"</STYLE>"', "'<!-- '"])
def test_what_would_end_its_element_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="expected text that may stand in a page"):
        build._InPage(f"const x = {text};", "", "").page("")


def test_other_code_has_another_mark() -> None:
    """What is kept of an interpreter's memory is of one code (shell/heap.js)."""
    files = {"py/a.zip": b"1", "index.html": b"x", "shell/worker.js": b"`of no bundle`"}
    mark = dict(build._marked(files))["shell/worker.js"]
    assert b"of no bundle" not in mark
    assert dict(build._marked({**files, "index.html": b"y"}))["shell/worker.js"] == mark
    for name in ("py/a.zip", "shell/worker.js"):
        other = dict(build._marked({**files, name: files[name] + b" "}))["shell/worker.js"]
        assert other.rstrip() != mark
