# What the command line says. The module of the page holds none of it.

command-derived = derived
command-practice = common practice, no source
command-memory = from memory
