"""What answers say about a learner: level, skills, misconceptions, when to review, readiness. Pure; clock handed in."""
