# What the command line says. The module of the page holds none of it.

command-derived = derived
command-practice = common practice, no source
command-memory = from memory
command-assumed = our assumption

command-no-language = there is no such language; those there are: { $codes }
command-cannot-open = can't be opened
command-cannot-read = can't be read
command-cannot-write = can't be written
command-pipe = it is a pipe; it must be a file
command-endless = a file must have { $high } MB at most
command-read-only = it may not be written; make it writable, or name another file
command-holds-work = a plan with work or marks in it is there; --replace puts the new one in its place
command-would-replace = it would replace the file that it is made from
command-no-plans = no *.json in this folder
command-folder-cannot-read = folder { $folder } can't be read
command-standard-output = standard output: can't be written: { $reason }
command-name-refused = { $what } must have a name that ends in { $ending }, not { $file }
command-a-plan = a plan
command-a-table = a table
command-a-code = a code
command-a-drawing = a drawing
command-drawn = { $file } drawn
command-written = { $file } written
command-is-there = it is there already; --replace puts the new one in its place
command-file-of-rows = a file of many rows
command-no-rows = no row could be read: nothing is written
command-archived = { $count ->
    [one] one row
   *[other] { $count } rows
} in { $file }
command-set-aside = row { $place }, “{ $row }”: { $why }; set aside as { $file }
command-no-code = The link has { $value } characters; a code holds { $high } at most

command-row = { $file }: { $name }, leaf { $leaf }: { $trees } trees, { $uprights } uprights, cordon filled to { $filled } %, { $bare } bare
command-now = now
command-soon = soon
command-note = note
command-left = left
command-each = { $count ->
    [one] One finding by itself:
   *[other] { $count } findings one by one:
}
command-mend = fix: { $remedy }

command-none-taken = no line could be taken
command-too-many-left-out = { $left } of { $all } lines could not be taken, too many for slips: nothing is written; --anyway writes a plan of the { $taken } others
command-left-out = { $left } of { $all } lines left out, each named above
command-imported = { $file }: { $taken ->
    [one] one line
   *[other] { $taken } lines
} taken, { $left } left out; { $trees ->
    [one] one tree
   *[other] { $trees } trees
}, { $lost } lost
command-plan-note = Measured row from { $file }: { $taken } lines taken.
command-tipped-unknown = whether last year's growth had been tipped is not known: it is taken as whole; --tipped says it
command-tipped-told = --tipped changes nothing: the table tells what was cut, or there is no growth of last year
command-planted-refused = a planting angle must be between 10 and 90 degrees, not { $angle }
command-wire = wire: { $reason }
command-wire-refused = a cordon wire must be between { $low } and { $high } mm, not { $height }

command-period-backward = a period from { $from } to { $to } ends before it begins; its last day must be { $from } or later
command-period-long = a period must be a year at most, not from { $from } to { $to }
command-day-refused = a day must be written as 2026-07-01 or 07-01, not '{ $day }'
command-no-month = a day's month must be between 01 and 12, not { $month } as in '{ $day }'
command-no-day = a day must be between { $first } and { $last }, not '{ $day }'
command-light = { $file }: { $name }, leaf { $leaf }, { $from } to { $to }: { $caught } of the light caught (beam { $beam }, sky { $sky }), { $filled } if filled as usual, leaf area index { $index }
command-light-zone = renewal zone { $mean } in the mean, { $least } at the least; { $under30 } of the wall under 30 %, { $under50 } under 50 %
command-light-gap = gap from { $x0 } to { $x1 } m, { $z0 } to { $z1 } m high, loses { $loss } % of the light
command-light-around = at { $latitude }, { $bearing }, { $spacing }, { $weather ->
    [usual] usual sky: { $share } of the light comes from it (Page 1961, half of the hours sunny)
   *[clear] clear sky
}
command-light-latitude = latitude { $value }
command-light-bearing = row bearing { $value }°
command-light-spacing = rows { $value } m apart
command-light-taken = { $what } (taken)

command-forecast = { $file }: { $name }, scheme { $scheme }, by a calibrated model
command-forecast-leaf = leaf { $leaf }: cordon filled to { $filled }, { $uprights } uprights, { $bears ->
    [yes] crop { $crop } t/ha (10th to 90th percentile { $low } to { $high }), { $fruit } cm² of leaf a fruit
   *[no] no crop
 }, leaf area index { $index }, oldest wood before the winter’s cuts { $age ->
    [one] { $age } season
   *[other] { $age } seasons
 }
command-forecast-share = { $of ->
    [0] renewing no upright
   *[other] renewing one in { $of } uprights each winter
 }: crop { $crop } t/ha by the usual values on average from leaf 3 on, { $late } in the last three leaves, oldest wood then { $age }, { $uprights } uprights, { $stubs } stubs in all
command-forecast-doubt = from leaf { $leaf } on: { $why }
command-forecast-young = oldest wood is at most { $limit } in winter from leaf { $from } on
command-forecast-old = oldest wood is over { $limit } in winter up to leaf { $last }
command-no-scheme = there is no scheme { $name }; those there are: { $schemes }
command-one-plan = -o takes the advice for one plan: name one file

command-crew = { $file }: { $name }, scheme { $scheme }, leaf { $leaf }: { $passes ->
    [0] no work
    [one] one pass
   *[other] { $passes } passes
}, { $pieces ->
    [one] one piece of work
   *[other] { $pieces } pieces of work
}, some { $hours } hours of one person (rates are from memory)
command-crew-usual = leaf { $leaf } has no work in this scheme: this is the usual work of that leaf
command-crew-pass = { $number }. { $job }, { $window ->
    [bud_swell] at bud swell
    [early_summer] in early summer
    [after_harvest] after harvest
   *[dormant] dormant
}: { $pieces ->
    [one] one piece
   *[other] { $pieces } pieces
} on { $trees ->
    [0] the trellis
    [one] one tree
   *[other] { $trees } trees
}, { $people ->
    [one] one person
   *[other] { $people } people
}, { $minutes } min each{ $stands ->
    [yes] , by rule
   *[no] {""}
}
command-crew-tools = { $tools }{ $ties ->
    [0] {""}
    [one] ; one tie, { $sleeves } sleeves
   *[other] ; { $ties } ties, { $sleeves } sleeves
}
command-crew-tree = tree { $tree }: { $count }
command-crew-void = can’t be done as the row stands: { $work }
command-no-job = there is no job { $name }; those there are: { $names }
command-name-value = { $text } must be a name and a number, such as stub=20

command-materials = { $file }: { $name }: { $trees } trees to order ({ $places } places, { $spares } to spare), { $least } to { $most } above the ground, unheaded with intact buds where there is one leader
command-wire-need = wire at { $height }, { $kind ->
    [plastic] plastic
   *[bare] bare
}{ $new ->
    [yes] , still to be stretched
   *[no] {""}
}: { $length }; it bears { $crop } kg of crop on a metre: tension { $tension } kN, sag { $sag }
command-wire-all = { $bare } of bare wire and { $plastic } of plastic wire in all (a coil of 25 kg is { $coil } m of bare wire of that thickness); { $posts } posts, at most { $span } apart{ $assumed ->
    [yes] {" "}(assumed: the row has none)
   *[no] {""}
}; { $ties } ties, { $sleeves } sleeves
command-wire-load = { $t } t/ha are { $kg } kg on a metre of row; did the cordon wire bear it all: tension { $tension } kN, sag { $sag }. Set without load to { $setting } kN, never over 1.1; a wire of 2.5 mm breaks from { $breaking } kN on. Wood and leaves are not counted.
command-leaf-takes = the work of leaf { $leaf } takes { $trees ->
    [one] one tree
   *[other] { $trees } trees
}, { $wires ->
    [one] one wire
   *[other] { $wires } wires
}, { $ties } ties, { $sleeves } sleeves
command-placed = place of tree { $tree }: { $is ->
    [yes] delivered tree { $delivered }
   *[no] none is left
}{ $lacks ->
    [yes] , { $short } too short
   *[no] {""}
}{ $headed ->
    [yes] , headed though unheaded is needed
   *[no] {""}
}
command-cost = what has a price costs { $cost } { $currency }
command-no-price = there is no price { $name }; those there are: { $names }
command-out-of-range = { $name } = { $value }: it must be between { $low } and { $high }
command-compare = { $file }: { $name }, to leaf { $leaf }, by a calibrated model; hours by rates from memory
command-compare-scheme = { $scheme }: crop { $crop } t/ha in all, cordon filled to { $filled } at the end, oldest wood { $age }; { $hours } hours, { $pieces } pieces of work, { $cuts } cuts, { $wires } wires, { $ties } ties, { $sleeves } sleeves
command-compare-two = -o lays two schemes side by side, not { $count }: name two with --schemes
command-one-row = -o writes for one row: name one file
command-sheets = sheets
command-no-pdf = the PDF could not be made: { $reason }
command-one-language = one language at a time: only crew writes in several
command-a-report = a report
command-report = { $file }: { $name }, leaf { $leaf }: { $matters ->
    [one] one matter found
   *[other] { $matters } matters found
}, { $settled } settled by the work; { $passes ->
    [0] no work
    [one] one pass
   *[other] { $passes } passes
}, { $changes ->
    [one] one change
   *[other] { $changes } changes
} by tree
