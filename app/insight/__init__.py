"""What many answers say: weak spots of a class, and how good the questions are. Pure statistics."""
