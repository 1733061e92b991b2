"""A moisture round on the pad: order, rows, what each point comes to, how a place is added."""
