"""Questions and forms that come over a place and give back an answer."""
