"""A window with one page of WebKitGTK, driven by lines of JSON: window.py PROFILE WIDTH HEIGHT.

Run by the system's Python, not ours: standard library and the system's bindings only. Each line in is a
command {id, do, ...}; out come {id, result}, {id, wrong} (the script threw), {id, gone} (the page went) and
{said} (its console). It ends when its input does.
"""

from __future__ import annotations

import json
import os
import sys
from typing import Any

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import Gdk, GLib, Gtk, WebKit2  # noqa: E402

HEAR = """for (const kind of ["log", "warn", "error"]) {
  const own = console[kind];
  console[kind] = (...all) => {
    window.webkit.messageHandlers.said.postMessage(all.map(String).join(" "));
    own.apply(console, all);
  };
}"""


class Window:
    """The page and what was asked of it."""

    def __init__(self, profile: str, width: int, height: int) -> None:
        data = WebKit2.WebsiteDataManager(
            base_data_directory=os.path.join(profile, "data"),
            base_cache_directory=os.path.join(profile, "cache"),
        )
        content = WebKit2.UserContentManager()
        content.register_script_message_handler("said")
        content.connect("script-message-received::said", self.heard)
        frames, start = WebKit2.UserContentInjectedFrames.TOP_FRAME, WebKit2.UserScriptInjectionTime.START
        content.add_script(WebKit2.UserScript.new(HEAR, frames, start, None, None))
        context = WebKit2.WebContext(website_data_manager=data)
        self.view = WebKit2.WebView(web_context=context, user_content_manager=content)
        self.view.connect("load-changed", self.loaded)
        self.view.connect("load-failed", self.failed)
        self.window = Gtk.Window(decorated=False)
        self.window.set_default_size(width, height)
        self.window.move(0, 0)
        self.window.add(self.view)
        self.window.show_all()
        self.loading: int | None = None
        self.trouble = ""
        self.rest = b""

    def tell(self, **message: Any) -> None:
        os.write(1, json.dumps(message).encode() + b"\n")

    def heard(self, content: Any, told: Any) -> None:
        self.tell(said=told.get_js_value().to_string())

    def loaded(self, view: Any, event: Any) -> None:
        if event == WebKit2.LoadEvent.FINISHED and self.loading is not None:
            number, self.loading = self.loading, None
            told = {"wrong": self.trouble} if self.trouble else {"result": None}
            self.tell(id=number, **told)

    def failed(self, view: Any, event: Any, address: str, error: Any) -> bool:
        self.trouble = f"{address}: {error.message}"
        return False

    def read(self, source: int, condition: Any) -> bool:
        """What came in, whole lines of it."""
        more = os.read(source, 1 << 16)
        if not more:
            Gtk.main_quit()
            return False
        *lines, self.rest = (self.rest + more).split(b"\n")
        for line in lines:
            asked = json.loads(line)
            getattr(self, "do_" + asked.pop("do"))(asked.pop("id"), **asked)
        return True

    def do_hello(self, number: int) -> None:
        self.tell(id=number, result=None)

    def do_goto(self, number: int, address: str) -> None:
        self.loading, self.trouble = number, ""
        self.view.load_uri(address)

    def do_evaluate(self, number: int, body: str, text: str) -> None:
        def done(view: Any, result: Any) -> None:
            try:
                told = {"result": view.call_async_javascript_function_finish(result).to_string()}
            except GLib.Error as error:
                threw = error.matches(WebKit2.javascript_error_quark(), WebKit2.JavascriptError.SCRIPT_FAILED)
                told = {"wrong" if threw else "gone": error.message}
            self.tell(id=number, **told)

        given = GLib.Variant("a{sv}", {"text": GLib.Variant("s", text)})
        self.view.call_async_javascript_function(body, -1, given, None, None, None, done)

    def do_screenshot(self, number: int, path: str) -> None:
        shown = self.window.get_window()
        picture = Gdk.pixbuf_get_from_window(shown, 0, 0, shown.get_width(), shown.get_height())
        picture.savev(path, "png", [], [])
        self.tell(id=number, result=None)


def main() -> None:
    """Open it and do what is asked."""
    profile, width, height = sys.argv[1:]
    window = Window(profile, int(width), int(height))
    GLib.io_add_watch(0, GLib.PRIORITY_DEFAULT, GLib.IO_IN | GLib.IO_HUP, window.read)
    Gtk.main()


if __name__ == "__main__":
    main()
