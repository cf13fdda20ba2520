# What advice says. The command line alone asks for it.

refusal-solve-number = A length or weight of advice must be a number, and a distance to aim at more than 0, not { $value }
refusal-fill-no-way = The wood of tree { $count }, counted from the left, has no way to lie; give it one at least
refusal-uprights-order = Places of uprights must go from left to right: { $from } stands before { $to }
refusal-uprights-bare = Nothing stands, and no bud can be kept, between { $from } and { $to }; nearer places or a longer gap must be allowed there
