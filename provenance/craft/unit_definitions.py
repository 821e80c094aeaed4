"""The few units a darkroom measures in, for `provenance.craft.units`.

Every factor is exact.  The inch is 25.4 mm and the pound 453.59237 g by the
international agreement of 1959; 7000 grains make a pound; the US gallon is
231 cubic inches, the imperial gallon 4.54609 litres (NIST Special Publication
811, appendix B).  There are no prefixes, so a slip such as “kin” stays unknown.
Names are lower case with underscores for spaces.
"""

DEFINITIONS = """
millimeter = [length] = mm = millimetre
centimeter = 10 * millimeter = cm = centimetre
meter = 1000 * millimeter = m = metre
inch = 25.4 * millimeter = in = inches
foot = 304.8 * millimeter = ft = feet

milliliter = [volume] = ml = millilitre = cc
liter = 1000 * milliliter = l = litre
us_fluid_ounce = 29.5735295625 * milliliter = us_fl_oz = us_floz
us_pint = 473.176473 * milliliter = us_pt
us_quart = 946.352946 * milliliter = us_qt
us_gallon = 3785.411784 * milliliter = us_gal
imperial_fluid_ounce = 28.4130625 * milliliter = imperial_fl_oz = imperial_floz
imperial_pint = 568.26125 * milliliter = imperial_pt
imperial_quart = 1136.5225 * milliliter = imperial_qt
imperial_gallon = 4546.09 * milliliter = imperial_gal

milligram = [mass] = mg
gram = 1000 * milligram = g = gramme
kilogram = 1000000 * milligram = kg
grain = 64.79891 * milligram
ounce = 28349.523125 * milligram = oz
pound = 453592.37 * milligram = lb

millisecond = [time] = ms
second = 1000 * millisecond = s = sec
minute = 60000 * millisecond = min
hour = 3600000 * millisecond = h = hr
"""
