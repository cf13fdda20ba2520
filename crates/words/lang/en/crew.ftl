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
