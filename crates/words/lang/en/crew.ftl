# What is said where work is handed out. The page's first module holds none of it.

crew-job = { $job ->
    [grub_out] Grub trees out
    [plant] Plant
    [stub] Cut stubs
    [laterals] Take laterals off
    [tip] Tip, hold the height
    [cut_back] Cut back
    [take_off] Take shoots off
    [wires] Wires
    [buds] Rub buds out, keep buds
    [notch] Notch
   *[tie] Lay and tie
}
crew-job-diseased = { $job } – diseased trees, last
crew-tool = { $job ->
    [grub_out] saw, spade
    [plant] spade, tape, angle board
    [stub] pruning saw, a stick of the stub’s length
    [laterals] shears
    [tip] shears
    [cut_back] shears
    [take_off] saw, shears
    [wires] strainer, pliers
    [buds] hands
    [notch] knife
   *[tie] ties, sleeves
}

caution-glasses = Wear glasses: stubs meet a stooping face.
caution-spray = Enter only after the re-entry interval of the last spray.
caution-dry = Prune in dry weather, two dry days at least, and disinfect tools.
caution-canker = Below a visible canker cut at least { $below } away; where it is nearer, tape it, leave it, call.
caution-trunk = Leave a stub near the trunk, no flush cut.
caution-saw = Saw: the free hand and everybody else out of its way.
caution-shears = Powered shears: a cut-resistant glove on the free hand, nobody within reach.
caution-ladder = Ladders and pole saws: three points of contact, not above the third step from the top, nobody below, mind power lines.
caution-loosen = Loosen ties in late summer, before they cut in.
caution-diseased = Diseased trees come last. Disinfect tools after every tree, and take the cuttings away.

refusal-rate = { $name } = { $value }: a rate must be between { $low } and { $high } seconds, and be one of { $names }

crew-row = Row: { $row }
crew-fill-in = Block: ______________   Date: ______________   Foreman: ____________________   Crew: ____________________________
crew-with = Tool: { $tools }. { $people ->
    [one] One person
   *[other] { $people } people
}, some { $minutes } min each{ $ties ->
    [0] .
    [one] ; one tie, { $sleeves } sleeves.
   *[other] ; { $ties } ties, { $sleeves } sleeves.
}
crew-each = On each: { $work }
crew-how = Numbers are counted from the trunk along the wire, uprights and stubs in one, where wood goes both ways on each side by itself. Count all of a tree before the first cut. Behind the number stand the distance from the tree’s foot along the row and the thickness at the base.
crew-differs = Does the count differ, is there gum or a split: tape it, leave it, call.
crew-not-today = Today this job alone, and what has a box: all else stays, however wrong it looks.
crew-stick = cut a stick as long: { $length } (true where this is printed at 100 %)
crew-list = { $count ->
    [one] One piece
   *[other] { $count } pieces
} on { $trees ->
    [0] the trellis
    [one] one tree
   *[other] { $trees } trees
}: tick each
crew-found = As it is found
crew-right = RIGHT
crew-wrong = WRONG: { $job ->
    [stub] cut flush, nothing returns
    [laterals] headed, and laterals stand
    [tip] far too much is gone
    [cut_back] taken off whole
   *[take_off] another shoot is gone
}
crew-solved = Solved:
crew-try = Try { $number }:
crew-answer = Answer { $number }
crew-find = find { $count }
crew-find-sides = find { $left } on the left, { $right } on the right
crew-number = no. { $number }{ $side ->
    [left] {" "}left
    [right] {" "}right
   *[none] {""}
}
crew-missing = { $count ->
    [one] before it tree { $trees } is missing
   *[other] before it trees { $trees } are missing
}
crew-tree = Tree { $tree }
crew-in-bay = Bay { $bay }, tree { $place } (tree { $tree } of the row)
crew-trellis = On the wires
crew-marking = Marking sheet for the foreman – { $job }
crew-marking-how = Who paints walks first; the crew cuts paint. Count all of a tree, paint what is told, then tick the tree. Where the count differs paint nothing: tape it.
crew-paint = { $tree }, paint { $pieces }

# The page's sheet on which it is chosen what is printed.
hand-title = Hand out the work of leaf { $leaf }
hand-all = { $scheme }: { $passes ->
    [one] one pass
   *[other] { $passes } passes
}, { $pieces ->
    [one] one piece
   *[other] { $pieces } pieces
}, some { $hours } h of one person. Each pass is one walk along the row with one job, in this order.
hand-none = No work stands in leaf { $leaf } of { $scheme }: there is nothing to hand out.
hand-usual = Nobody planned this: it is the usual work of leaf { $leaf }, which the scheme does not hold.
hand-usual-do = Show the usual work of this leaf
hand-usual-none = The usual rules have none either.
hand-count = { $count ->
    [one] One piece
   *[other] { $count } pieces
} on { $trees ->
    [0] the trellis
    [one] one tree
   *[other] { $trees } trees
}
hand-people = People together
hand-language = Sheets in
hand-print = Print this pass
hand-print-all = Print all passes
hand-mark = Print its marking sheet
hand-mark-all = Print the foreman’s marking sheets
hand-trees = Tree by tree
hand-tree = { $tree }: { $count ->
    [one] one piece
   *[other] { $count } pieces
}
hand-void = { $count ->
    [one] One piece can’t be done as the row stands, and is in no pass:
   *[other] { $count } pieces can’t be done as the row stands, and are in no pass:
}
hand-rates = How long work takes
hand-rates-what = Seconds of one person. Type how long your crew takes: the minutes follow, here and on the sheets.
hand-rates-source = from memory
hand-reset = All times and people as usual
rate-grub-out = A tree grubbed out (s)
rate-plant = A tree planted (s)
rate-stub = A stub cut (s)
rate-laterals = Laterals of one upright (s)
rate-tip = A tip (s)
rate-cut-back = A shoot cut back (s)
rate-take-off = A shoot taken off (s)
rate-wire = A wire, whatever its length (s)
rate-wire-post = A wire, at each post (s)
rate-bud = A bud kept, or the buds of a shoot rubbed out (s)
rate-notch = A notch (s)
rate-tie = A shoot laid or stood up, and tied (s)
rate-walk = The way to a tree and the look at it (s)
rate-disinfect = Tools disinfected (s)
refusal-seconds = It must be between { $low } and { $high } seconds, not { $value }
refusal-people = It must be a whole number of people between { $low } and { $high }, not { $value }
