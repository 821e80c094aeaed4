"""Papers drawn from finished values; knows no database."""
