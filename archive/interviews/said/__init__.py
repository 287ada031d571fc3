"""What was said in the interviews: the figures spoken, who told which, proposed chapters, who talks how long."""
