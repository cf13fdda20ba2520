# What the core says of rows, work and findings. Values come with their units.

name-tree = tree { $tree }
name-stem = stem, tree { $tree }
name-leader = { $of ->
    [1] leader, tree { $tree }
   *[other] leader { $number } of { $of }, tree { $tree }
}
name-upright = upright { $number } of { $of }, tree { $tree }
name-bud = bud { $number } of { $of }, tree { $tree }
name-stub = stub { $number } of { $of }, tree { $tree }
name-shoot = shoot { $number } of { $of }, tree { $tree }

refusal-limit = Limit { $limit }: { $value } is refused; { $low } to { $high } is accepted
refusal-scheme = Scheme { $value } is refused; 1 to { $high } is accepted
refusal-leaf = Work in leaf { $value } is refused; leaf { $low } to { $high } is accepted
refusal-no-tree = There is no tree { $tree } in this row
refusal-before-found = Tree { $tree }: work from before the row was found is refused; work from the found leaf on is accepted
refusal-no-shoot = Tree { $tree }: the shoot is not there at this time; a shoot that stands on the tree is accepted
refusal-rise = { $part }: a rise of { $value } is refused; { $low } to { $high } is accepted
refusal-lean = { $part }: a lean of { $value } is refused; { $low } to { $high } is accepted
refusal-stub-length = { $part }: a stub of { $value } is refused; { $low } to { $high } is accepted
refusal-cut-length = { $part }: { $value } kept is refused; { $low } to less than its { $high } is accepted
refusal-stem = { $part }: the stem can't be stubbed or taken off; any other shoot is accepted
refusal-bend-bud = { $part }: a bud can't be bent; a shoot that has grown is accepted
refusal-bud-not-laid = { $part }: a bud is kept on wood laid along the wire only
refusal-bud-place = { $part }: a bud at { $value } is refused; { $low } to { $high } along it is accepted
refusal-bud-near = { $part }: a bud at { $value } is refused; { $low } or more from the upright at { $near } is accepted
refusal-shoots = Tree { $tree }: one more shoot is refused; up to { $high } are accepted

# Files

refusal-file-size = The file of { $value } MB is refused; up to { $high } MB is accepted
refusal-file-text = Line { $line }: not UTF-8 text; save the file as UTF-8 and it is accepted
refusal-file-empty = The file is empty
refusal-file-format = The file is no plan: its format is { $value }; { $accepted } is accepted
refusal-file-too-new = The plan is of version { $value } and needs a newer program; this one reads versions 1 to { $high }
refusal-file-version = Version { $value } is refused; 1 to { $high } is accepted
refusal-file-cut = The file is cut: it ends at line { $line }, column { $column }, before the plan does
refusal-file-damaged = The file is damaged at line { $line }, column { $column }: { $reason }
refusal-file-content = Line { $line }, column { $column }: { $reason }
refusal-file-value = { $path }: { $value } is refused; { $low } to { $high } is accepted
refusal-file-long-text = { $path }: a text of { $value } characters is refused; up to { $high } are accepted
refusal-file-twice = { $path }: { $value } stands there twice; each is accepted once
refusal-file-rule = { $path }: { $rule }
