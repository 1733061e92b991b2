"""The screens on a laptop: one person, one machine, nothing to configure."""
