"""Where the screens run: in the phone's browser (``phone``) and on a laptop (``server``)."""
