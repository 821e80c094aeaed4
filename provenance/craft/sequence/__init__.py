"""Rules for a sequence of baths and tests: a plan, a print's history, the step to come.

What is not on record is never taken as done, nor as left out: a time that
nobody wrote down and an order that the dates leave open trip no rule.
"""
