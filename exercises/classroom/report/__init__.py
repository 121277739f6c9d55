"""What is written of the marks: tables, pages for students, a report on the class."""
