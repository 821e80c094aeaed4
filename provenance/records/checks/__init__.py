"""What an audit looks at: one module each for the chain, the view, and what lies beside them."""
