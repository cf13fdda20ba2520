# What advice says.

refusal-solve-number = A length or weight of advice must be a number, and a distance to aim at more than 0, not { $value }
refusal-fill-no-way = The wood of tree { $count }, counted from the left, has no way to lie; give it one at least
refusal-uprights-order = Places of uprights must go from left to right: { $from } stands before { $to }
refusal-uprights-bare = Nothing stands, and no bud can be kept, between { $from } and { $to }; nearer places or a longer gap must be allowed there

advice-usual = Tree { $tree }: { $kind ->
    [rub_out] rub out side and underside buds
    [keep_bud] { $count ->
        [one] keep a bud
       *[other] keep { $count } buds
    }
    [notch] { $count ->
        [one] notch above a bud
       *[other] notch above { $count } buds
    }
    [lay] { $count ->
        [one] lay the stock along the wire
       *[other] lay both leaders along the wire
    }
    [cut_to_buds] { $count ->
        [one] cut the upright back to buds
       *[other] cut { $count } uprights back to buds
    }
    [cut_back] cut the end of the cordon back
    [thin] keep one return of the stub
    [remove] { $count ->
        [one] take a shoot off
       *[other] take { $count } shoots off
    }
    [stub] { $count ->
        [one] cut an upright to a stub
       *[other] cut { $count } uprights to stubs
    }
    [take_laterals] take the laterals off
    [tip] tip last year’s growth
    [hold_height] hold the wall’s height
    [add_wire] stretch the next wire
   *[other] the usual work
}
advice-why-usual = { $kind ->
    [rub_out] Buds on the sides and underneath bring shoots that stand out of the flat wall; rubbed out at bud swell they cost no cut later (common practice, no source)
    [keep_bud] A bud kept on last season’s wood fills a place where the wall has room for an upright (common practice, no source)
    [notch] Older wood brings an upright only above a notch, and not every time (from memory)
    [lay] Stock is laid in early summer while its wood still bends (from memory)
    [cut_to_buds] Few and uneven shoots cut back to buds share their vigour among as many even ones (common practice, no source)
    [cut_back] Wood beyond the next tree covers the wire twice (common practice, no source)
    [thin] Of several returns of a stub one is kept, so that the knuckle carries one upright (from memory)
    [remove] What grows out of the flat wall, or beside an upright that was held, comes off (common practice, no source)
    [stub] A share of the uprights is renewed each winter, the oldest and the largest first (common practice, no source)
    [take_laterals] From the third leaf on uprights stand without laterals (common practice, no source)
    [tip] Tipping takes so many flowers from the harvest after the coming one that leaf and fruit come into balance (common practice, no source)
    [hold_height] What stands above the wall’s height shades the rows beside it (common practice, no source)
    [add_wire] The next wire goes in as the uprights reach for it (common practice, no source)
   *[other] It is the usual work of this time (common practice, no source)
}

advice-row = { $file }: { $name }, leaf { $leaf }, { $window ->
    [bud_swell] at bud swell
    [early_summer] in early summer
    [after_harvest] after harvest
   *[dormant] dormant
}
advice-draft = { $pieces ->
    [0] Nothing to propose
    [one] One piece of work: { advice-counts }
   *[other] { $pieces } pieces of work: { advice-counts }
}
advice-counts = { $cuts ->
    [one] one cut
   *[other] { $cuts } cuts
}, an upright’s laterals as one, { $ties ->
    [one] one shoot laid or tied
   *[other] { $ties } shoots laid or tied
}, { $buds ->
    [one] one bud
   *[other] { $buds } buds
}, { $wires ->
    [one] one wire
   *[other] { $wires } wires
}, some { $minutes } minutes for one person (from memory)
advice-gain = Over five leaves, by a calibrated model: crop { $before } t/ha without it, { $after } with it (a difference of { $low } to { $high }), in the coming harvest { $next } and { $nextwith }; cordon filled then to { $was } without it, to { $filled } with it, growth counted; oldest wood in the winters until then { $age } with it
advice-tips = Tips for the harvest of leaf { $harvest }, after the coming one: { $trees } trees, { $before } cm² of leaf a fruit in the mean without, { $after } with them; 200 are aimed at (published). { $hand ->
    [0] No tree needs more than that
    [one] One tree needs its spurs or fruit thinned by hand as well
   *[other] { $hand } trees need their spurs or fruit thinned by hand as well
}
advice-tip = Tree { $tree }: { $tips ->
    [no] no tips for the fruit’s sake, it has { $before } cm² of leaf each without
   *[yes] tip by { $share } of last year’s growth, { $before } cm² a fruit without, { $after } with it
}{ $thin ->
    [yes] ; { $hand } of the fruit of that harvest still has to be thinned by hand
   *[no] {""}
}
advice-renewed = Renewal over { $winters } winters: oldest wood after them { $simple } by the simple rule, { $seen } with the row seen as a whole; crop of five leaves { $before } t/ha by the rule, { $after } so (a difference of { $low } to { $high }, by a calibrated model)
advice-winter = Before leaf { $leaf }: { $count ->
    [one] one stub
   *[other] { $count } stubs
}; crop of that leaf { $rule } t/ha by the simple rule, { $crop } so
