# A row that is passed on as a link, and why one can't be opened.

refusal-link-none = This is no link to a row: behind the # must stand { $accepted } and what follows
refusal-link-form = The link is of form { $value } and needs a newer program; this one reads form 1
refusal-link-cut = The link was cut off on its way: its end is missing. Copy it again, whole
refusal-link-damaged = The link is damaged: it is not as it was made. Have it sent again
refusal-link-long = A link must have { $high } characters at most, not { $value }: pass the plan on as a file
refusal-link-size = A link must hold { $high } bytes at most, not { $value }: pass the plan on as a file
