"""One module for each screen: ``view(ctx)`` gives what it shows as plain data."""
