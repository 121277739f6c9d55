"""The science and the questions of Eight Readings.

Pure Python: the standard library and pygeomag. The same files run at build
time and in the student's browser, so nothing here may import from generator/.
"""
