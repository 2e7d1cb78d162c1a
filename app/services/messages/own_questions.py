"""What is said about questions that a school's own instructors write."""

MESSAGES = {
    "own-empty": ("Nothing is written here yet.", "Rien n'est encore écrit ici."),
    "own-long": (
        "This has {value} characters. Accepted: 1 to {most}.",
        "Ce texte compte {value} caractères. Accepté : de 1 à {most}.",
    ),
    "own-braces": (
        "Braces cannot stand in a question. Use round brackets.",
        "Une question ne peut pas contenir d'accolades. Utilisez des parenthèses.",
    ),
    "own-value": ("“{value}” cannot be kept here.", "« {value} » ne peut pas être enregistré ici."),
    "own-topic": (
        "There is no topic “{value}”. Accepted: {accepted}.",
        "Il n'y a pas de thème « {value} ». Acceptés : {accepted}.",
    ),
    "own-wrong": (
        "There are {value} wrong answers. Accepted: {least} to {most}, each with all four lines filled in.",
        "Il y a {value} mauvaises réponses. Accepté : de {least} à {most}, chacune avec ses quatre lignes remplies.",
    ),
    "own-steps": (
        "There are {value} steps. Accepted: 1 to {most}, one a line.",
        "Il y a {value} étapes. Accepté : de 1 à {most}, une par ligne.",
    ),
    "own-wrong-unlike": (
        "There are {value} wrong answers in words, and {wanted} formulas. Each needs both.",
        "Il y a {value} mauvaises réponses rédigées et {wanted} formules. Chacune demande les deux.",
    ),
    "own-numbers": (
        "There are {value} numbers. Accepted: 1 to {most}.",
        "Il y a {value} nombres. Accepté : de 1 à {most}.",
    ),
    "own-size": (
        "“{value}” is no number that can stand here. Accepted: such as 12 or 2.5, up to a million.",
        "« {value} » n'est pas un nombre accepté ici. Accepté : par exemple 12 ou 2,5, un million au plus.",
    ),
    "own-name": (
        "“{value}” cannot be the name of a number. Accepted: one word of 2 to 12 capitals and digits, such as SPEED.",
        "« {value} » ne peut pas nommer un nombre. Accepté : un mot de 2 à 12 capitales et chiffres, tel VITESSE.",
    ),
    "own-name-taken": (
        "{value} has a meaning of its own. Choose another name.",
        "{value} a déjà un sens propre. Choisissez un autre nom.",
    ),
    "own-name-twice": (
        "{value} stands here twice. Choose another name.",
        "{value} figure deux fois. Choisissez un autre nom.",
    ),
    "own-name-here": (
        "{value} cannot be named here: no number is printed in this text, or the answer would be told.",
        "{value} ne peut pas figurer ici : ce texte n'affiche pas de nombre, ou la réponse serait révélée.",
    ),
    "own-number-both": (
        "A number is drawn or reckoned: leave its formula empty, or from, to and in steps of.",
        "Un nombre est tiré ou calculé : laissez vide la formule, ou les cases de, à et par pas de.",
    ),
    "own-number-how": (
        "Say how it is drawn: from, to and in steps of. Or write a formula.",
        "Indiquez comment il est tiré : de, à et par pas de. Ou écrivez une formule.",
    ),
    "own-number-range": (
        "From, to and steps hold fewer than two values. “To” must be larger than “from” by a step at least.",
        "De, à et le pas donnent moins de deux valeurs. « À » doit dépasser « de » d'un pas au moins.",
    ),
    "own-number-heading": ("A heading lies from 1 to 360.", "Un cap va de 1 à 360."),
    "own-number-decimals": (
        "From and steps have more decimals than are shown. Show more, or draw coarser numbers.",
        "De et le pas ont plus de décimales qu'il n'en est affiché. Affichez-en plus, ou tirez des nombres ronds.",
    ),
    "own-formula-empty": ("Nothing is written here yet.", "Rien n'est encore écrit ici."),
    "own-formula-long": (
        "The formula is longer than {most} characters. Reckon a part of it as a number above.",
        "La formule dépasse {most} caractères. Calculez-en une partie comme nombre ci-dessus.",
    ),
    "own-formula-end": (
        "The formula ends with “{value}”: something is missing behind it.",
        "La formule finit par « {value} » : il manque quelque chose ensuite.",
    ),
    "own-formula-sign": (
        "“{value}” cannot stand in a formula. Accepted: numbers, names, + − × ÷ ^ and round brackets.",
        "« {value} » ne peut pas figurer dans une formule. Accepté : nombres, noms, + − × ÷ ^ et parenthèses.",
    ),
    "own-formula-number": (
        "“{value}” is no number. Accepted: such as 2.5 or 2,5; a semicolon stands between two values.",
        "« {value} » n'est pas un nombre. Accepté : 2,5 ou 2.5; un point-virgule sépare deux valeurs.",
    ),
    "own-formula-name": (
        "“{value}” is no name in capitals and no function. Functions: {functions}.",
        "« {value} » n'est ni un nom en capitales ni une fonction. Fonctions : {functions}.",
    ),
    "own-formula-function": (
        "Behind “{value}” stands its value in round brackets, such as sin(30).",
        "Après « {value} » vient sa valeur entre parenthèses, par exemple sin(30).",
    ),
    "own-formula-count": (
        "“{value}” has too few or too many values. A semicolon stands between two, such as min(A1; 30).",
        "« {value} » a trop ou trop peu de valeurs. Un point-virgule les sépare, par exemple min(A1; 30).",
    ),
    "own-formula-form": (
        "The formula cannot be read at “{value}”. Accepted: brackets closed, a sign between two values: 2 × (3 + 4).",
        "Illisible à « {value} ». Accepté : parenthèses fermées, un signe entre deux valeurs : 2 × (3 + 4).",
    ),
    "own-formula-unknown": (
        "There is no number “{value}” that could stand here. Accepted: {accepted}.",
        "Aucun nombre « {value} » ne peut figurer ici. Acceptés : {accepted}.",
    ),
    "own-unwritten": (
        "Write the question in one language at least.",
        "Rédigez la question dans une langue au moins.",
    ),
    "own-unlike": (
        "English and French must have as many wrong answers and as many steps. Leave one language out, or even them.",
        "Il faut autant de mauvaises réponses et d'étapes en anglais qu'en français. Omettez une langue ou égalisez.",
    ),
    "own-file": (
        "The file cannot be read. Accepted: a file of own questions as it is saved here.",
        "Le fichier ne peut pas être lu. Accepté : un fichier de questions maison enregistré ici.",
    ),
    "own-file-question": ("Look at question {number}, {field}.", "Voyez la question {number}, {field}."),
    "own-file-size": ("It is larger than {most} kB.", "Il dépasse {most} ko."),
    "own-file-many": ("It holds {value} questions, at most {most}.", "Il contient {value} questions, {most} au plus."),
    "own-file-form": ("It holds no list of questions.", "Il ne contient pas de liste de questions."),
    "own-reason": (
        "The reason has {value} characters. Accepted: 1 to {most}.",
        "La raison compte {value} caractères. Accepté : de 1 à {most}.",
    ),
    "own-changed": (
        "Somebody has changed or released this question meanwhile. Look at it as it is now, then try again.",
        "Quelqu'un a entre-temps modifié ou publié cette question. Consultez-la telle qu'elle est, puis réessayez.",
    ),
    "own-not-fit": (
        "The question cannot be asked yet: see what the checks have against it.",
        "La question ne peut pas encore être posée : voyez ce que les vérifications lui reprochent.",
    ),
    "own-rule": ("The checks say: {what}.", "Les vérifications signalent : {what}."),
    "own-rule-negative-stem": (
        "It asks in the negative. Ask what is; where it must be, write NOT in capitals.",
        "Elle est posée à la forme négative. Demandez ce qui est; au besoin, écrivez NE PAS en capitales.",
    ),
    "own-rule-catch-all-option": (
        "An answer such as “all of the above” tells nothing about the mistake. Offer a real answer.",
        "Une réponse comme « toutes ces réponses » ne dit rien de l'erreur. Proposez une vraie réponse.",
    ),
    "own-rule-options-collide": (
        "Two answers read alike. Each must say something else.",
        "Deux réponses se lisent de la même façon. Chacune doit dire autre chose.",
    ),
    "own-rule-test-wise": (
        "The right answer can be told by its length alone. Make a wrong one as long.",
        "La bonne réponse se devine à sa seule longueur. Rédigez une mauvaise réponse aussi longue.",
    ),
    "own-rule-option-length": (
        "The right answer and the wrong ones differ much in length: some students choose by that.",
        "La bonne réponse et les mauvaises diffèrent beaucoup en longueur : certains choisissent d'après cela.",
    ),
    "own-rule-long-sentence": (
        "A sentence has over 40 words. Split it.",
        "Une phrase compte plus de 40 mots. Scindez-la.",
    ),
    "own-rule-elision": (
        "The French wants an elision: {what}.",
        "Il manque une élision : {what}.",
    ),
    "own-number-rule-key-place": (
        "By size the right answer stands unevenly ({places} times, lowest to highest): add mistakes on the other side.",
        "Par taille, la bonne réponse est mal répartie ({places} fois, de bas en haut) : ajoutez des erreurs opposées.",
    ),
    "own-number-rule-test-wise": (
        "Whoever guesses by the size or the roundness of the numbers is right too often. Change the wrong answers.",
        "Qui devine d'après la taille ou la rondeur des nombres a trop souvent raison. Changez les mauvaises réponses.",
    ),
    "own-number-rule-few-distinct": (
        "Only {share}% of the draws differ from one another. Wider numbers or finer steps make more questions.",
        "Seulement {share} % des tirages diffèrent. Élargissez les nombres ou affinez les pas pour varier davantage.",
    ),
    "own-number-rule-no-legal-draw": (
        "No draw of these numbers makes a fair question.",
        "Aucun tirage de ces nombres ne donne une question équitable.",
    ),
    "own-number-rule-never-met": (
        "A wrong answer never comes about: its value always lies too near to another.",
        "Une mauvaise réponse n'apparaît jamais : sa valeur est toujours trop proche d'une autre.",
    ),
    "own-lost": ("Of the draws, {share}% are not asked: {why}.", "{share} % des tirages ne sont pas posés : {why}."),
    "own-lost-most": (
        "{share}% of the draws make no fair question, and half must. Change the numbers or the formulas.",
        "{share} % des tirages ne donnent rien d'équitable; la moitié le doit. Changez les nombres ou les formules.",
    ),
    "own-piece-zero": ("{first} divides by zero", "division par zéro : {first}"),
    "own-piece-large": ("{first} becomes too large", "valeur trop grande : {first}"),
    "own-piece-domain": ("{first} has no value", "aucune valeur : {first}"),
    "own-piece-told": ("the question tells the right answer", "la question révèle la bonne réponse"),
    "own-piece-right": ("{first} would be marked right", "serait jugée bonne : {first}"),
    "own-piece-near": ("{first} and {second} lie too near to each other", "trop proches : {first} et {second}"),
    "own-alike": (
        "One value always comes of {first} and {second}. One mistake must lead elsewhere, or be left out.",
        "Toujours la même valeur : {first} et {second}. Changez une des deux erreurs ou retirez-la.",
    ),
    "own-piece-key": ("the right answer", "la bonne réponse"),
    "own-piece-wrong": ("wrong answer {number}", "mauvaise réponse {number}"),
    "own-sum-off": (
        "A line of the working does not add up as it is printed: {what}.",
        "Une ligne du raisonnement ne tombe pas juste telle qu'affichée : {what}.",
    ),
    "own-hidden": (
        "The right answer needs {value}, which the question does not tell.",
        "La bonne réponse exige {value}, que la question ne donne pas.",
    ),
    "own-stems-unlike": (
        "English and French do not tell the same numbers: {value}.",
        "L'anglais et le français ne donnent pas les mêmes nombres : {value}.",
    ),
    "own-unused": (
        "{value} is neither told nor used. Leave it out, or use it.",
        "{value} n'est ni donné ni utilisé. Retirez-le ou utilisez-le.",
    ),
    "own-mistyped": (
        "“{value}” is printed as it stands. Write {near} if that is meant.",
        "« {value} » est affiché tel quel. Écrivez {near} si c'est ce que vous voulez dire.",
    ),
}
