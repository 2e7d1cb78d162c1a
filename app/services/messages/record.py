"""What stands above the columns of one's own answers."""

MESSAGES = {
    "own-answered": ("Answered, UTC.", "Répondu, UTC."),
    "own-kind": ("Kind of question.", "Genre de question."),
    "own-question": ("Question as shown.", "Question telle que montrée."),
    "own-answer": ("Answer.", "Réponse."),
    "own-right": ("Right (1) or not (0).", "Juste (1) ou non (0)."),
    "own-misconceptions": ("Misconceptions it points to.", "Idées fausses qu'elle laisse supposer."),
    "own-set-aside": ("Set aside (1) or not (0).", "Mise de côté (1) ou non (0)."),
    "own-seconds": ("Seconds taken.", "Secondes prises."),
}
