//! What typed text gets that cannot be read, and what the page shares with the worker.

use super::Row;

/// The rows, by where they are said.
pub(super) const ROWS: &[Row] = &[
    [
        "Try other figures",
        "Essayer d’autres chiffres",
        "Probar otros datos",
    ],
    [
        "How sure is it",
        "À quel point c’est sûr",
        "Qué tan seguro es",
    ],
    [
        "Grass-fed against grain-fed",
        "L’herbe face au grain",
        "A pasto frente a grano",
    ],
    [
        "What moves it most",
        "Ce qui pèse le plus",
        "Qué lo mueve más",
    ],
    [
        "How far it may go",
        "Jusqu’où cela peut aller",
        "Hasta dónde puede llegar",
    ],
    [
        "Two figures at once",
        "Deux données à la fois",
        "Dos datos a la vez",
    ],
    [
        "Best way to cut it",
        "Meilleure façon de découper",
        "La mejor manera de cortarla",
    ],
    [
        "Against another plan",
        "Face à un autre plan",
        "Frente a otro plan",
    ],
    [
        "read in the source",
        "lu dans la source",
        "leído en la fuente",
    ],
    [
        "derived from published figures",
        "dérivé de chiffres publiés",
        "derivado de cifras publicadas",
    ],
    ["from memory", "de mémoire", "de memoria"],
    ["estimate", "estimation", "estimación"],
    [
        "read in a secondary copy",
        "lu dans une copie secondaire",
        "leído en una copia secundaria",
    ],
    [
        "the shop's own",
        "propre à la boucherie",
        "propio de la carnicería",
    ],
    [
        "the hot carcass weight of {kg} kg must be 50 to 800 kg (110 to 1764 lb): the whole carcass, both sides together",
        "le poids de carcasse chaude de {kg} kg doit être de 50 à 800 kg (110 à 1764 lb) : la carcasse entière, les deux demi-carcasses ensemble",
        "el peso de canal caliente de {kg} kg debe ser de 50 a 800 kg (110 a 1764 lb): la canal entera, las dos mitades juntas",
    ],
    [
        "the back fat of {cm} cm must be 0 to 8 cm (0 to 3.15 in)",
        "le gras dorsal de {cm} cm doit être de 0 à 8 cm (0 à 3,15 po)",
        "la grasa dorsal de {cm} cm debe ser de 0 a 8 cm (0 a 3.15 in)",
    ],
    [
        "the ribeye area of {cm2} cm² must be 20 to 200 cm² (3.1 to 31 in²)",
        "la surface du faux-filet de {cm2} cm² doit être de 20 à 200 cm² (3,1 à 31 po²)",
        "el área de ojo de bife de {cm2} cm² debe ser de 20 a 200 cm² (3.1 a 31 in²)",
    ],
    [
        "the kidney fat of {percent} % must be 0 to 12 % of the carcass",
        "le gras de rognon de {percent} % doit être de 0 à 12 % de la carcasse",
        "la grasa de riñonada de {percent} % debe ser de 0 a 12 % de la canal",
    ],
    [
        "{days} days are more than the published losses reach: 0 to {longest} days, or a loss of your own",
        "{days} jours dépassent ce que couvrent les pertes publiées : 0 à {longest} jours, ou une perte à vous",
        "{days} días son más de lo que alcanzan las mermas publicadas: de 0 a {longest} días, o una merma propia",
    ],
    [
        "a loss of {percent} % must be 0 % or more and less than 100 %",
        "une perte de {percent} % doit être d’au moins 0 % et de moins de 100 %",
        "una merma de {percent} % debe ser 0 % o más y menos de 100 %",
    ],
    [
        "no loss in dry-ageing is published for this part: give a loss of your own",
        "aucune perte au vieillissement à sec n’est publiée pour cette pièce : donnez la vôtre",
        "no hay merma de maduración en seco publicada para esta pieza: dé una propia",
    ],
    [
        "the file must hold “grain” and “grass”, in this order",
        "le fichier doit contenir « grain » et « grass », dans cet ordre",
        "el archivo debe contener «grain» y «grass», en este orden",
    ],
    [
        "A side of no weight cannot be priced: type a weight above 0, such as 180.",
        "Une demi-carcasse sans poids ne peut être évaluée : entrez un poids au-dessus de 0, par exemple 180.",
        "Sin peso no se puede calcular el precio de una media canal: escriba un peso mayor que 0, como 180.",
    ],
    [
        "“{typed}” is not a count of sides: type a whole number from 1 to {most_sides}.",
        "« {typed} » n’est pas un nombre de demi-carcasses : entrez un nombre entier de 1 à {most_sides}.",
        "«{typed}» no es una cantidad de medias canales: escriba un número entero de 1 a {most_sides}.",
    ],
    [
        "is 100 % or more, which leaves nothing to cut: type a number such as 1.5.",
        "vaut 100 % ou plus, ce qui ne laisse rien à découper : entrez un nombre, par exemple 1,5.",
        "es 100 % o más, lo que no deja nada que cortar: escriba un número como 1.5.",
    ],
    [
        "cannot be a dressing share: type a number above 0 and up to 100, such as 61.5.",
        "ne peut pas être un rendement carcasse : entrez un nombre au-dessus de 0 et jusqu’à 100, par exemple 61,5.",
        "no puede ser un rendimiento en canal: escriba un número mayor que 0 y hasta 100, como 61.5.",
    ],
    [
        "Kill and inspection",
        "Abattage et inspection",
        "Sacrificio e inspección",
    ],
    [
        "is more than all of it: type 0 to 100.",
        "dépasse le tout : entrez de 0 à 100.",
        "es más que el total: escriba de 0 a 100.",
    ],
    [
        "is 100 % or more, which leaves nothing to cut.",
        "vaut 100 % ou plus, ce qui ne laisse rien à découper.",
        "es 100 % o más, lo que no deja nada que cortar.",
    ],
    [
        "“{typed}” leaves no fat for the leanest class: type a number below {limit}.",
        "« {typed} » ne laisse aucun gras à la catégorie la plus maigre : entrez un nombre inférieur à {limit}.",
        "«{typed}» no deja grasa para la clase más magra: escriba un número menor que {limit}.",
    ],
    [
        "“{typed}” is no count of days: type a whole number, such as 21.",
        "« {typed} » n’est pas un nombre de jours : entrez un nombre entier, par exemple 21.",
        "«{typed}» no es una cantidad de días: escriba un número entero, como 21.",
    ],
    [
        "“{typed}” is more than all of it: type 0 to 100, or a weight such as 5 kg.",
        "« {typed} » dépasse le tout : entrez de 0 à 100, ou un poids, par exemple 5 kg.",
        "«{typed}» es más que el total: escriba de 0 a 100, o un peso como 5 kg.",
    ],
    [
        "is 100 % or more, which leaves nothing to sell: type a number such as 4.",
        "vaut 100 % ou plus, ce qui ne laisse rien à vendre : entrez un nombre, par exemple 4.",
        "es 100 % o más, lo que no deja nada que vender: escriba un número como 4.",
    ],
    [
        "A pack must hold something: type a weight above 0, such as 0.7.",
        "Un paquet doit contenir quelque chose : entrez un poids au-dessus de 0, par exemple 0,7.",
        "Un paquete debe contener algo: escriba un peso mayor que 0, como 0.7.",
    ],
    [
        "is 100 % or more, which leaves nothing to pay for the side: type a number below 100, such as 28.",
        "vaut 100 % ou plus, ce qui ne laisse rien pour payer la demi-carcasse : entrez un nombre inférieur à 100, par exemple 28.",
        "es 100 % o más, lo que no deja nada para pagar la media canal: escriba un número menor que 100, como 28.",
    ],
    [
        "is 100 % or more, which leaves nothing to sell.",
        "vaut 100 % ou plus, ce qui ne laisse rien à vendre.",
        "es 100 % o más, lo que no deja nada que vender.",
    ],
    [
        "The cut plan alone",
        "Le plan de découpe seul",
        "Solo el plan de despiece",
    ],
    [
        "The plan and the deal",
        "Le plan et l’offre",
        "El plan y la oferta",
    ],
    [
        "The plan, the deal and my costs",
        "Le plan, l’offre et mes coûts",
        "El plan, la oferta y mis costos",
    ],
    [
        "All of it, my prices too",
        "Le tout, mes prix aussi",
        "Todo, también mis precios",
    ],
    ["Physical weight", "Poids physique", "Peso físico"],
    [
        "Sales value at split-off",
        "Valeur de vente à la séparation",
        "Valor de venta en la separación",
    ],
    [
        "Net realisable value",
        "Valeur nette de réalisation",
        "Valor neto realizable",
    ],
    [
        "Constant gross margin",
        "Marge brute constante",
        "Margen bruto constante",
    ],
    [
        "Charges a kilo of bone-in shank as much as a kilo of tenderloin, so cheap cuts seem to lose and dear ones to earn too much.",
        "Fait payer un kilo de jarret avec os autant qu’un kilo de filet : les coupes bon marché semblent perdre, et les chères gagner trop.",
        "Carga a un kilo de jarrete con hueso lo mismo que a un kilo de lomo fino, así que los cortes baratos parecen perder y los caros ganar demasiado.",
    ],
    [
        "Leaves out the work done after the split, so cuts that need much trimming seem to earn more than they do.",
        "Laisse de côté le travail fait après la séparation : les coupes qui demandent beaucoup de parage semblent gagner plus qu’elles ne gagnent.",
        "Deja fuera el trabajo hecho después de la separación, así que los cortes que piden mucha limpieza parecen ganar más de lo que ganan.",
    ],
    [
        "Follows the board: where the board is wrong, the costs are wrong with it.",
        "Suit le tableau de prix : là où le tableau se trompe, les coûts se trompent avec lui.",
        "Sigue la lista: donde la lista se equivoca, los costos se equivocan con ella.",
    ],
    [
        "Makes every cut earn the same by construction, so it can never show which cut earns most.",
        "Fait gagner autant à chaque coupe par construction : ne peut donc jamais montrer laquelle gagne le plus.",
        "Hace que todos los cortes ganen lo mismo por construcción, así que nunca puede mostrar cuál gana más.",
    ],
    [
        "“{typed}” is not a date: write year-month-day, such as 2026-03-09.",
        "« {typed} » n’est pas une date : écrivez année-mois-jour, par exemple 2026-03-09.",
        "«{typed}» no es una fecha: escriba año-mes-día, como 2026-03-09.",
    ],
    [
        "“{typed}” is no day of the calendar: check the month and the day.",
        "« {typed} » n’est pas un jour du calendrier : vérifiez le mois et le jour.",
        "«{typed}» no es un día del calendario: revise el mes y el día.",
    ],
    [
        "No ending is entered: type the cents in two digits, such as 49, 99.",
        "Aucune fin n’est entrée : entrez les cents en deux chiffres, par exemple 49, 99.",
        "No se escribió ningún final: escriba los centavos con dos cifras, como 49, 99.",
    ],
    [
        "“{typed}” is not an ending: type the cents in two digits, such as 49, 99.",
        "« {typed} » n’est pas une fin de prix : entrez les cents en deux chiffres, par exemple 49, 99.",
        "«{typed}» no es un final de precio: escriba los centavos con dos cifras, como 49, 99.",
    ],
    [
        "Nothing is entered: type a number, such as 12.5.",
        "Rien n’est entré : entrez un nombre, par exemple 12,5.",
        "No se escribió nada: escriba un número, como 12.5.",
    ],
    [
        "“{typed}” is not a number: type digits with at most one point or comma, such as 12.5.",
        "« {typed} » n’est pas un nombre : entrez des chiffres avec au plus un point ou une virgule, par exemple 12,5.",
        "«{typed}» no es un número: escriba cifras con un punto o una coma como máximo, como 12.5.",
    ],
    [
        "“{typed}” has two separators: type one point or comma for the decimals and none for the thousands.",
        "« {typed} » a deux séparateurs : mettez un seul point ou une seule virgule pour les décimales, et rien pour les milliers.",
        "«{typed}» tiene dos separadores: escriba un punto o una coma para los decimales y nada para los millares.",
    ],
    [
        "“{typed}” has a space inside the number: type the digits together, such as 1234.5.",
        "« {typed} » a une espace dans le nombre : entrez les chiffres collés, par exemple 1234,5.",
        "«{typed}» tiene un espacio dentro del número: escriba las cifras juntas, como 1234.5.",
    ],
    [
        "“{typed}” is out of range: type a number up to {largest} with at most {most_places} decimals.",
        "« {typed} » est hors limites : entrez un nombre d’au plus {largest} avec au plus {most_places} décimales.",
        "«{typed}» está fuera de rango: escriba un número hasta {largest} con {most_places} decimales como máximo.",
    ],
    [
        "“{typed}” is below zero: type zero or more.",
        "« {typed} » est sous zéro : entrez zéro ou plus.",
        "«{typed}» está bajo cero: escriba cero o más.",
    ],
    [
        "“{typed}”: “{unit}” is not a unit known here; leave it out or use {known}.",
        "« {typed} » : « {unit} » n’est pas une unité connue ici; omettez-la (admis : {known}).",
        "«{typed}»: «{unit}» no es una unidad conocida aquí; omítala o use {known}.",
    ],
    ["no unit", "aucune unité", "ninguna unidad"],
    ["kg, lb or g", "kg, lb ou g", "kg, lb o g"],
    [
        "/kg, /lb or /100 g",
        "/kg, /lb ou /100 g",
        "/kg, /lb o /100 g",
    ],
    [
        "a currency sign",
        "un symbole monétaire",
        "un signo de moneda",
    ],
    ["min or h", "min ou h", "min o h"],
    ["Cutting sheet", "Feuille de découpe", "Hoja de despiece"],
    ["Price cards", "Étiquettes de prix", "Etiquetas de precio"],
    ["Cost sheet", "Feuille de coûts", "Hoja de costos"],
    [
        "Too little lean: {lean} more at {leanest} fat would make it good.",
        "Trop peu de maigre : il faudrait {lean} de plus à {leanest} de gras.",
        "Falta magro: se arreglaría con {lean} más, de {leanest} de grasa.",
    ],
    [
        "No trim of this side is lean enough for it.",
        "Aucune parure de cette demi-carcasse n’est assez maigre.",
        "Ningún recorte de esta media canal es bastante magro para ello.",
    ],
    [
        "All trim is used up; up to {fat} more fat trim could go in.",
        "Toutes les parures sont utilisées; jusqu’à {fat} de parures de gras pourraient encore y entrer.",
        "Se usó todo el recorte; podrían entrar hasta {fat} más de recorte de grasa.",
    ],
    [
        "All trim is used up.",
        "Toutes les parures sont utilisées.",
        "Se usó todo el recorte.",
    ],
    [
        "{product}: {weight} of the {wanted} wanted, {missing} short. {why}",
        "{product} : {weight} sur {wanted} voulus, il manque {missing}. {why}",
        "{product}: {weight} de {wanted} pedidos, faltan {missing}. {why}",
    ],
    [
        "Unsold and marked down come to more than 100 % together: type smaller shares.",
        "L’invendu et le vendu au rabais dépassent 100 % ensemble : entrez des parts plus petites.",
        "Lo no vendido y lo rebajado pasan juntos de 100 %: escriba partes menores.",
    ],
    [
        "The plan cannot be priced: look over {place}.",
        "Le plan ne peut être évalué : vérifiez {place}.",
        "No se puede calcular el precio del plan: revise {place}.",
    ],
    [
        "The side weighs nothing: enter a weight above 0.",
        "La demi-carcasse ne pèse rien : entrez un poids au-dessus de 0.",
        "La media canal no pesa nada: escriba un peso mayor que 0.",
    ],
    [
        "Enter from 1 to {most} sides.",
        "Entrez de 1 à {most} demi-carcasses.",
        "Escriba de 1 a {most} medias canales.",
    ],
    [
        "A margin of 100 % or more leaves nothing to pay for the side: enter one below 100 %.",
        "Une marge de 100 % ou plus ne laisse rien pour payer la demi-carcasse : entrez-en une inférieure à 100 %.",
        "Un margen de 100 % o más no deja nada para pagar la media canal: escriba uno menor que 100 %.",
    ],
    [
        "{what}: it must be 0 % or more and below 100 %.",
        "{what} : doit être d’au moins 0 % et de moins de 100 %.",
        "{what}: debe ser 0 % o más y menos de 100 %.",
    ],
    [
        "No cut of this plan has a price above 0: enter a price on the board.",
        "Aucune coupe de ce plan n’a un prix au-dessus de 0 : entrez un prix au tableau.",
        "Ningún corte de este plan tiene un precio mayor que 0: escriba un precio en la lista.",
    ],
    [
        "Shrink or dressing share",
        "Freinte ou rendement carcasse",
        "Merma o rendimiento en canal",
    ],
];
