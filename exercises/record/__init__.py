"""A student's own laboratory record, checked: columns reworked, readings looked at, a result with its uncertainty.

entries   what a record holds and how each cell is read
file      the record as CSV, in and out
place     B_H by place and date, or as it is typed
columns   every computed column judged, with the slips of tan A
student_t, structure   which readings do not belong with the others
moments   trend, a distance out of line, the mean and its uncertainty
looks     what the numbers say, in sentences
check     all of it together;  plot, paper  the graph and the page for the record book
page      what the page in the browser may ask
"""
