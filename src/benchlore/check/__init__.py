"""Check: rules over entries, the findings they give, and reports of them."""
