"""The kinds of exercise, a folder each; a new folder is found by itself."""
