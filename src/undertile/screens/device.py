"""A device as a person knows it: the name its phone was paired under, not the digits that keep ids apart."""

from __future__ import annotations

import re

from undertile.screens.context import Context

_UNNAMED = re.compile("[0-9a-f]{32}")
_NAMED = re.compile("(.+)-([0-9a-f]{16})")
"""As a phone calls itself: ``named`` in hosts/phone/shell/log.js."""


def device_words(ctx: Context, device: str) -> str:
    """This device, the name it was paired under, or the first digits of its own.

    Behind a name stand the digits that tell two phones of one name apart.
    """
    if device == ctx.host.device:
        return ctx.says("this-device")
    if _UNNAMED.fullmatch(device):
        return ctx.says("device-unnamed", digits=device[:4])
    named = _NAMED.fullmatch(device)
    return f"{named[1].replace('-', ' ')} {named[2][:4]}" if named else device
