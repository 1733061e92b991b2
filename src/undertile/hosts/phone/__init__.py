"""The tool in the phone: a static bundle that any HTTPS host can serve, and what runs in it.

``build`` makes the bundle on a laptop; ``shell/`` is its page, in plain modules; ``inside`` is what the
page's worker calls in Python. How it holds together: docs/decisions/phone.md.
"""
