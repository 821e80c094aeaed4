"""Tables that come in: a row for each paper, print or move, all of them or nothing."""
