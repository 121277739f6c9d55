"""The instructor's half: a class list, a code for each student, tables and pages for paper."""
