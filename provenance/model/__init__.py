"""The nouns of the trade: frozen values that know no database, page or clock."""
