"""Washing: what water leaves of the fixer in a sheet.

What mixing alone leaves can be calculated (`changes`); what fibre-based paper
gives up, and how fast, can only be read from a studio's own tests (`fit`).
"""
