# Numbers, quantities and lists. A language that writes them differently says so here and nowhere else.

# Between the whole part of a number and its fraction.
units-decimal-sign = .
# Between groups of three digits.
units-group-sign = ,
# How many digits a whole number needs before its digits are grouped.
units-grouped-from = 4

units-milliseconds = { $number } ms
units-seconds = { $number } s
units-minutes = { $number } min
units-hours = { $number } h
# A span in two units: 1 min 50 s.
units-pair = { $larger } { $smaller }
units-negative = -{ $span }

units-celsius = { $number } °C
units-millimeters = { $number } mm
units-milliliters = { $number } mL
units-grams = { $number } g
units-irradiance = { $number } mW/cm²
units-dose = { $number } J/cm²
units-percent = { $number } %
units-per-second = { $number } /s
units-chance = { $hits } in { $of }

# Lists are joined from the end: two things, or a start, as many middles as needed, and an end.
units-list-none = none
units-list-two = { $first } and { $rest }
units-list-start = { $first }, { $rest }
units-list-middle = { $first }, { $rest }
units-either = { $first } or { $rest }
units-list-end = { $first } and { $rest }
