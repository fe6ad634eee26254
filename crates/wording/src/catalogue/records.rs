//! What the scale's place says of own yields, suppliers, records and bought-in
//! pieces. The worker says it.

use super::Row;

/// The rows, by where they are said.
pub(super) const ROWS: &[Row] = &[
    [
        "Every figure rests on published yields so far. Weigh what a side gives and close it: from then on your own yields count too.",
        "Chaque chiffre repose jusqu’ici sur les rendements publiés. Pesez ce que donne une demi-carcasse et closez-la : dès lors vos rendements comptent aussi.",
        "Cada cifra se basa hasta ahora en rendimientos publicados. Pese lo que da una media res y ciérrela: desde entonces también cuentan sus rendimientos.",
    ],
    [
        "Plans reckon with the published yields and your own together: the published ones count like {strength} sides, each side of yours like one. Closed tests that count: {tests}. Sides in them: {sides}.",
        "Les plans comptent avec les rendements publiés et les vôtres ensemble : les publiés comptent comme {strength} demi-carcasses, chacune des vôtres comme une. Essais clos qui comptent : {tests}. Demi-carcasses : {sides}.",
        "Los planes cuentan con los rendimientos publicados y los suyos juntos: los publicados cuentan como {strength} medias reses, cada una suya como una. Pruebas cerradas que cuentan: {tests}. Medias reses: {sides}.",
    ],
    [
        "How much published figures count for",
        "Combien comptent les chiffres publiés",
        "Cuánto cuentan las cifras publicadas",
    ],
    ["Set", "Appliquer", "Aplicar"],
    [
        "Published yields count like",
        "Les rendements publiés comptent comme",
        "Los rendimientos publicados cuentan como",
    ],
    [
        "Sides of your own. An estimate: no published figure says how far one shop lies from the published yields. More of them hold longer to what is published.",
        "Des demi-carcasses à vous. Une estimation : aucun chiffre publié ne dit à quel point une boucherie s’écarte des rendements publiés. Un plus grand nombre s’en tient plus longtemps à ce qui est publié.",
        "Medias reses suyas. Una estimación: ninguna cifra publicada dice cuánto se aparta una carnicería de los rendimientos publicados. Más de ellas se atienen por más tiempo a lo publicado.",
    ],
    [
        "Published spread counts like",
        "La dispersion publiée compte comme",
        "La dispersión publicada cuenta como",
    ],
    [
        "Sides of your own. An estimate too: the spread was measured on many animals, but on others.",
        "Des demi-carcasses à vous. Une estimation aussi : la dispersion a été mesurée sur beaucoup d’animaux, mais d’autres que les vôtres.",
        "Medias reses suyas. También una estimación: la dispersión se midió en muchos animales, pero en otros.",
    ],
    ["sides|how many", "demi-carcasses", "medias reses"],
    [
        "Type a number of sides from {least} to {most}.",
        "Saisissez un nombre de demi-carcasses de {least} à {most}.",
        "Escriba un número de medias reses de {least} a {most}.",
    ],
    [
        "Tests that do not fit the others",
        "Essais qui ne vont pas avec les autres",
        "Pruebas que no encajan con las demás",
    ],
    [
        "They count like all others until you leave them out: you know whether the scale slipped or the side was such a one.",
        "Ils comptent comme les autres tant que vous ne les écartez pas : vous seul savez si la balance s’est trompée ou si la demi-carcasse était ainsi.",
        "Cuentan como las demás hasta que las deje fuera: usted sabe si falló la báscula o si la media res era así.",
    ],
    [
        "{cut} off the {part}: {seen}, where {low} to {high} was to be expected.",
        "{cut}, de : {part} : {seen}, où l’on attendait de {low} à {high}.",
        "{cut}, de: {part}: {seen}, donde se esperaba de {low} a {high}.",
    ],
    [
        "Tests left out: {count}",
        "Essais écartés : {count}",
        "Pruebas dejadas fuera: {count}",
    ],
    [
        "Yields of every part",
        "Rendements de chaque pièce",
        "Rendimientos de cada pieza",
    ],
    [
        "Back to published yields everywhere",
        "Revenir partout aux rendements publiés",
        "Volver en todo a los rendimientos publicados",
    ],
    [
        "Every plan reckons with published yields again. Your tests stay, and so does the spread that they show.",
        "Chaque plan compte de nouveau avec les rendements publiés. Vos essais restent, de même que la dispersion qu’ils montrent.",
        "Cada plan vuelve a contar con los rendimientos publicados. Sus pruebas quedan, y también la dispersión que muestran.",
    ],
    [
        "Keep our own",
        "Garder les nôtres",
        "Conservar los nuestros",
    ],
    [
        "Use our own yields everywhere",
        "Utiliser partout nos rendements",
        "Usar en todo nuestros rendimientos",
    ],
    [
        "Use our own yields",
        "Utiliser nos rendements",
        "Usar nuestros rendimientos",
    ],
    [
        "Back to the published yields",
        "Revenir aux rendements publiés",
        "Volver a los rendimientos publicados",
    ],
    [
        "Put back: plans reckon with the published yields.",
        "Rétabli : les plans comptent avec les rendements publiés.",
        "Restablecido: los planes cuentan con los rendimientos publicados.",
    ],
    [
        "{way}, {stock}. Sides: {sides}",
        "{way}, {stock}. Demi-carcasses : {sides}",
        "{way}, {stock}. Medias reses: {sides}",
    ],
    ["Published|a yield", "Publié", "Publicado"],
    ["Own|a yield", "Le nôtre", "Propio"],
    ["Used|a yield", "Utilisé", "En uso"],
    ["90 % interval", "Intervalle à 90 %", "Intervalo del 90 %"],
    [
        "Spread of sides",
        "Dispersion des demi-carcasses",
        "Dispersión de las medias reses",
    ],
    [
        "Saleable share strays from side to side by",
        "D’une demi-carcasse à l’autre, la part vendable varie de",
        "De una media res a otra, la parte vendible varía en",
    ],
    [
        "one standard deviation, for the draws",
        "un écart-type, pour les tirages",
        "una desviación estándar, para los sorteos",
    ],
    [
        "How it is worked out, and after whom",
        "Comment c’est calculé, et d’après qui",
        "Cómo se calcula, y según quién",
    ],
    [
        "used yield = (strength × published share + your shares, summed over your sides) ÷ (strength + number of your sides), and so each output of a part together: they sum to the whole.",
        "rendement utilisé = (force × part publiée + vos parts, additionnées sur vos demi-carcasses) ÷ (force + nombre de vos demi-carcasses), et de même pour tout ce qui vient d’une pièce : la somme fait le tout.",
        "rendimiento en uso = (fuerza × parte publicada + sus partes, sumadas sobre sus medias reses) ÷ (fuerza + número de sus medias reses), y así todo lo que sale de una pieza: la suma da el total.",
    ],
    [
        "It is worked out at each end of the stock, from how far your sides lay from the published yields of their own stock; a side between grain-fed and grass-fed counts at both, by how near it lies.",
        "Le calcul se fait à chaque bout du type de bétail, d’après l’écart de vos demi-carcasses aux rendements publiés de leur propre type; une demi-carcasse entre le grain et l’herbe compte aux deux bouts, selon sa proximité.",
        "Se calcula en cada extremo del tipo de ganado, según cuánto se apartaron sus medias reses de los rendimientos publicados de su propio tipo; una media res entre grano y pasto cuenta en ambos, según su cercanía.",
    ],
    [
        "90 % interval = used yield ± t × √(S ÷ (ν × κ)), with κ the strength of the yields and your sides, ν the strength of the spread and your sides, t Student's with ν degrees of freedom, and S the squares of the published spread and of your own sides together. Your long-run yield lies in it with a chance of nine in ten, as far as the model holds. Spread of sides = √(S ÷ ν).",
        "intervalle à 90 % = rendement utilisé ± t × √(S ÷ (ν × κ)), où κ est la force des rendements plus vos demi-carcasses, ν la force de la dispersion plus vos demi-carcasses, t celui de Student à ν degrés de liberté, et S les carrés de la dispersion publiée et de vos demi-carcasses ensemble. Votre rendement à long terme s’y trouve neuf fois sur dix, pour autant que le modèle tienne. Dispersion des demi-carcasses = √(S ÷ ν).",
        "intervalo del 90 % = rendimiento en uso ± t × √(S ÷ (ν × κ)), donde κ es la fuerza de los rendimientos más sus medias reses, ν la fuerza de la dispersión más sus medias reses, t la de Student con ν grados de libertad, y S los cuadrados de la dispersión publicada y de sus medias reses juntos. Su rendimiento a largo plazo está en él nueve de cada diez veces, en la medida en que valga el modelo. Dispersión de las medias reses = √(S ÷ ν).",
    ],
    [
        "A test does not fit where one of its shares lies so far from what all other tests let expect that about one ordinary test in five hundred would, were every share normal; in simulated sides it was about two in a hundred.",
        "Un essai ne va pas avec les autres quand une de ses parts est si loin de ce que tous les autres laissent attendre qu’environ un essai ordinaire sur cinq cents le serait, si chaque part suivait la loi normale; sur des demi-carcasses simulées, c’était environ deux sur cent.",
        "Una prueba no encaja cuando una de sus partes está tan lejos de lo que todas las demás hacen esperar que cerca de una prueba corriente de cada quinientas lo estaría, si cada parte fuera normal; en medias reses simuladas fueron unas dos de cada cien.",
    ],
    [
        "Normal model with unknown mean and spread: Gelman et al., Bayesian Data Analysis, 3rd ed., 3.3, 3.4 and 3.6 (from memory). Published spread: Judge et al. 2019; Koch et al. Both strengths are estimates.",
        "Modèle normal de moyenne et de dispersion inconnues : Gelman et al., Bayesian Data Analysis, 3e éd., 3.3, 3.4 et 3.6 (de mémoire). Dispersion publiée : Judge et al. 2019; Koch et al. Les deux forces sont des estimations.",
        "Modelo normal de media y dispersión desconocidas: Gelman et al., Bayesian Data Analysis, 3.ª ed., 3.3, 3.4 y 3.6 (de memoria). Dispersión publicada: Judge et al. 2019; Koch et al. Ambas fuerzas son estimaciones.",
    ],
    [
        "Season of receipt",
        "Saison de réception",
        "Temporada de recepción",
    ],
    ["Bone and losses", "Os et pertes", "Hueso y pérdidas"],
    [
        "Walk-away price less price paid",
        "Prix plafond moins prix payé",
        "Precio tope menos precio pagado",
    ],
    [
        "In points of the side, against what the published yields expect of the same ways of cutting and the same stock: nobody is judged by how a side was cut.",
        "En points de la demi-carcasse, face à ce que les rendements publiés attendent des mêmes façons de couper et du même type de bétail : personne n’est jugé sur la coupe.",
        "En puntos de la media res, frente a lo que los rendimientos publicados esperan de los mismos modos de cortar y del mismo tipo de ganado: a nadie se le juzga por cómo se cortó.",
    ],
    [
        "Share of sales left, as the report of each side says, at its own prices and labour.",
        "Part des ventes qui reste, selon le rapport de chaque demi-carcasse, à ses propres prix et main-d’œuvre.",
        "Parte de las ventas que queda, según el informe de cada media res, con sus propios precios y mano de obra.",
    ],
    [
        "What the side could have cost at its own prices and labour, less what was paid for it.",
        "Ce que la demi-carcasse aurait pu coûter à ses propres prix et main-d’œuvre, moins ce qui a été payé.",
        "Lo que la media res podría haber costado con sus propios precios y mano de obra, menos lo que se pagó.",
    ],
    ["Told apart by", "Distingués par", "Distinguidos por"],
    [
        "Held against each other by",
        "Comparés selon",
        "Comparados según",
    ],
    ["{number} points", "{number} points", "{number} puntos"],
    [
        "Tests whose tag or report does not tell it, and which are left aside: {count}.",
        "Essais dont l’étiquette ou le rapport ne le dit pas, laissés de côté : {count}.",
        "Pruebas cuya etiqueta o informe no lo dice, y que se dejan de lado: {count}.",
    ],
    [
        "No test tells this yet.",
        "Aucun essai ne le dit encore.",
        "Ninguna prueba lo dice todavía.",
    ],
    [
        "In order of their names: an order by mean would be an order of chances. Each estimate is drawn towards the mean of all by as much as the sides stray by themselves; where nothing but that sets the groups apart, all estimates are the mean.",
        "Par ordre de nom : un ordre par moyenne serait un ordre du hasard. Chaque estimation est tirée vers la moyenne de tous autant que les demi-carcasses varient d’elles-mêmes; là où rien d’autre ne distingue les groupes, toutes les estimations sont la moyenne.",
        "Por orden de nombre: un orden por media sería un orden del azar. Cada estimación se acerca a la media de todos tanto como las medias reses varían por sí solas; donde nada más distingue a los grupos, todas las estimaciones son la media.",
    ],
    [
        "A difference is called one only where it stands against all pairs together: among equal groups, at most one list in ten shows any (random effects: Searle et al., Variance Components; Welch 1947; Holm 1979; all from memory).",
        "Une différence n’est dite telle que si elle tient face à toutes les paires ensemble : entre groupes égaux, au plus une liste sur dix en montre une (effets aléatoires : Searle et al., Variance Components; Welch 1947; Holm 1979; tous de mémoire).",
        "Una diferencia solo se llama así si se sostiene frente a todos los pares juntos: entre grupos iguales, a lo sumo una lista de cada diez muestra alguna (efectos aleatorios: Searle et al., Variance Components; Welch 1947; Holm 1979; todos de memoria).",
    ],
    [
        "{higher} lies above {lower} by {by}; 90 % interval {interval}.",
        "{higher} est au-dessus de {lower} de {by}; intervalle à 90 % : {interval}.",
        "{higher} está por encima de {lower} en {by}; intervalo del 90 %: {interval}.",
    ],
    [
        "There is one group alone: nothing to hold it against.",
        "Il n’y a qu’un groupe : rien à quoi le comparer.",
        "Hay un solo grupo: nada con qué compararlo.",
    ],
    [
        "No difference that sides do not explain by themselves.",
        "Aucune différence que les demi-carcasses n’expliquent d’elles-mêmes.",
        "Ninguna diferencia que las medias reses no expliquen por sí solas.",
    ],
    [
        "Too few sides to say: it takes at least {fewest} tests in each of two groups.",
        "Trop peu de demi-carcasses pour le dire : il faut au moins {fewest} essais dans chacun de deux groupes.",
        "Muy pocas medias reses para decirlo: hacen falta al menos {fewest} pruebas en cada uno de dos grupos.",
    ],
    [
        "Estimates about the mean of all, {mean}",
        "Estimations autour de la moyenne de tous, {mean}",
        "Estimaciones en torno a la media de todos, {mean}",
    ],
    ["Group", "Groupe", "Grupo"],
    ["Tests|how many", "Essais", "Pruebas"],
    ["Mean", "Moyenne", "Media"],
    [
        "90 % interval of the mean",
        "Intervalle à 90 % de la moyenne",
        "Intervalo del 90 % de la media",
    ],
    [
        "too few sides to say",
        "trop peu de demi-carcasses pour le dire",
        "muy pocas medias reses para decirlo",
    ],
    [
        "The groups as a table",
        "Les groupes en tableau",
        "Los grupos en tabla",
    ],
    ["Pair", "Paire", "Par"],
    [
        "Difference of the means",
        "Différence des moyennes",
        "Diferencia de las medias",
    ],
    [
        "What can be said",
        "Ce qu’on peut dire",
        "Qué puede decirse",
    ],
    [
        "{first} less {second}",
        "{first} moins {second}",
        "{first} menos {second}",
    ],
    [
        "no difference that stands out",
        "aucune différence qui ressort",
        "ninguna diferencia que resalte",
    ],
    [
        "{name} lies above",
        "{name} est au-dessus",
        "{name} está por encima",
    ],
    [
        "Every pair as a table",
        "Chaque paire en tableau",
        "Cada par en tabla",
    ],
    [
        "between grain-fed and grass-fed",
        "entre le grain et l’herbe",
        "entre grano y pasto",
    ],
    ["January to March", "Janvier à mars", "Enero a marzo"],
    ["April to June", "Avril à juin", "Abril a junio"],
    [
        "July to September",
        "Juillet à septembre",
        "Julio a septiembre",
    ],
    [
        "October to December",
        "Octobre à décembre",
        "Octubre a diciembre",
    ],
    [
        "The batch needs a code: it is what stands on its label.",
        "Le lot haché a besoin d’un code : c’est ce qui figure sur son étiquette.",
        "La tanda necesita un código: es lo que lleva su etiqueta.",
    ],
    [
        "Another batch has this code: give it one of its own.",
        "Un autre lot haché a ce code : donnez-lui le sien.",
        "Otra tanda tiene este código: dele uno propio.",
    ],
    [
        "Name every lot that went in, each with its weight.",
        "Nommez chaque lot qui y est entré, avec son poids.",
        "Nombre cada lote que entró, con su peso.",
    ],
    [
        "A batch cannot go into itself: name the lots it came of.",
        "Un lot haché ne peut entrer dans lui-même : nommez les lots dont il vient.",
        "Una tanda no puede entrar en sí misma: nombre los lotes de los que viene.",
    ],
    [
        "The log is full: hand it out as a file, keep the file, and begin another.",
        "Le journal est plein : sortez-le en fichier, gardez le fichier et commencez-en un autre.",
        "El registro de molienda está lleno: sáquelo como archivo, guarde el archivo y empiece otro.",
    ],
    [
        "A scheme has at most {most} characters.",
        "Un modèle a au plus {most} caractères.",
        "Un esquema tiene como máximo {most} caracteres.",
    ],
    [
        "A brace stands alone: write {lot}.",
        "Une accolade est seule : écrivez {lot}.",
        "Hay una llave sola: escriba {lot}.",
    ],
    [
        "“{name}” is not known. Known are {names}.",
        "« {name} » n’est pas connu. Sont connus : {names}.",
        "«{name}» no se conoce. Se conocen {names}.",
    ],
    [
        "The scheme needs {lot}, or no code leads back to its side.",
        "Le modèle a besoin de {lot}, sinon aucun code ne ramène à sa demi-carcasse.",
        "El esquema necesita {lot}, o ningún código lleva a su media res.",
    ],
    [
        "A scheme has no blanks: use - or / between its parts.",
        "Un modèle n’a pas d’espaces : mettez - ou / entre ses éléments.",
        "Un esquema no tiene espacios: use - o / entre sus partes.",
    ],
];
