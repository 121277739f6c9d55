"""A student's own laboratory record, checked: columns reworked, readings looked at, a result with its uncertainty.

entries      what a record holds and how each cell is read
position     tan A or tan B, and what is called otherwise in each
headings     by which words a line of a record file is known;  file  the record as CSV, in and out
place        B_H by place and date, or as it is typed
columns      every computed column judged, with the slips of tan A or tan B
givens       what a record gives to work with
outliers     which readings do not belong with the others;  student_t  how far chance alone goes
misreadings  what such a reading may be
moments      trend, a distance out of line, the graph
estimate     the result: m, p and 2l with what is known of 2l and of the needle;  said  the same in sentences
finding      one thing found, as data (passages: where to read of it)
instrument_findings, result_findings   what the readings say, and what the moments, the field and the magnet's size say
check        all of it together;  plot, paper  the graph and the page for the record book
page         what the page in the browser may ask
"""
