"""The six places of a studio, and the pages that open from them."""
