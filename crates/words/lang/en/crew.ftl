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
crew-tree = Tree { $tree }
crew-in-bay = Bay { $bay }, tree { $place } (tree { $tree } of the row)
crew-trellis = On the wires
crew-marking = Marking sheet for the foreman – { $job }
crew-marking-how = Who paints walks first; the crew cuts paint. Count all of a tree, paint what is told, then tick the tree. Where the count differs paint nothing: tape it.
crew-paint = { $tree }, paint { $pieces }
