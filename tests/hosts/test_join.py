"""The page's modules as one: they run as the browser's own module loader runs them."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from undertile.errors import InputError
from undertile.hosts.phone import build
from undertile.hosts.phone.join import joined

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


def test_the_page_and_the_worker_need_no_other_file(bundle: Path) -> None:
    for name in build.WHOLE:
        text = (bundle / name).read_text(encoding="utf-8")
        assert not [line for line in text.split("\n") if line.startswith(("import ", "export "))]
    assert {path.name for path in (bundle / "shell").glob("*.js")} == {
        name.partition("/")[2] for name in build.WHOLE
    }


def test_other_code_has_another_mark() -> None:
    """What is kept of an interpreter's memory is of one code (shell/heap.js)."""
    files = {"py/a.zip": b"1", "index.html": b"x", "shell/worker.js": b"`of no bundle`"}
    mark = dict(build._marked(files))["shell/worker.js"]
    assert b"of no bundle" not in mark
    assert dict(build._marked({**files, "index.html": b"y"}))["shell/worker.js"] == mark
    for name in ("py/a.zip", "shell/worker.js"):
        other = dict(build._marked({**files, name: files[name] + b" "}))["shell/worker.js"]
        assert other.rstrip() != mark
