"""The studio's key: it seals certificates so that nobody else can alter or make them."""
