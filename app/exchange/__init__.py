"""What goes out to other programs and comes in from them: plain tables, no web and no database."""
