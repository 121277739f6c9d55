"""Every figure of the site, drawn at build time: those of the theory pages, and those of the worked examples."""
