"""framing."""
