"""Edition lists and the heir's page: what the register holds, in words for paper and screen."""
