# The language itself: its name, and how numbers are written and typed.

language-name = Español

decimal-mark = ,
# Marks that are taken for it where a number is typed, with a space between them.
decimal-marks-typed = , .
# Between groups of three digits, from five digits on: a narrow space that does not break.
thousands-mark = {"\u202F"}
minus-sign = −
# What is no number.
no-number = –

measured-metres = { $n } m
measured-centimetres = { $n } cm
measured-millimetres = { $n } mm
measured-feet = { $n } ft
measured-inches = { $n } in
measured-degrees = { $n }°
measured-per-cent = { $n } %
# Units by themselves, beside a field or on a tape.
unit-m = m
unit-cm = cm
unit-mm = mm
unit-ft = ft
unit-in = in
feet-and-inches = { $feet } { $inches }

# Words for feet and for inches that may be typed besides ft, in, ' and ", with a space between them.
feet-typed = pie pies
inches-typed = pulgada pulgadas pulg plg

between-values = {" · "}
between-entries = {"; "}
between-effects = {"; "}
quoted = «{ $text }»
shortened = { $text } ({ $count } caracteres)
