"""What chemicals can do: statements by strength, dangerous meetings, cautions.

All sentences and limits are data.  Codes are always given with them, and the
supplier's safety data sheet decides.
"""
