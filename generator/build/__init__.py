"""How the site is built, in named steps."""
