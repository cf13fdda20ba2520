# What the page says.
