"""What builds the site and serves the teacher's command line.  Imports exercises/, never the reverse."""
