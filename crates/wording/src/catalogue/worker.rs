//! What the worker says: what is folded away, files, links, papers.

use super::Row;

/// The rows, by where they are said.
pub(super) const ROWS: &[Row] = &[
    // crates/advice/src/behind.rs
    [
        "How its cost came about",
        "Comment son coût s’est formé",
        "Cómo se formó su costo",
    ],
    ["Board", "Affiché", "Lista"],
    [
        "Margin {margin} of the sale, markup {markup} on the cost.",
        "Marge de {margin} sur la vente, majoration de {markup} sur le coût.",
        "Margen de {margin} sobre la venta, recargo de {markup} sobre el costo.",
    ],
    [
        "+ labour: {way}",
        "+ main-d’œuvre : {way}",
        "+ mano de obra: {way}",
    ],
    [
        "− its by-products",
        "− ses sous-produits",
        "− sus subproductos",
    ],
    [
        "{share} of it goes on",
        "{share} de ce coût suit la coupe",
        "{share} de eso sigue",
    ],
    ["+ packaging", "+ emballage", "+ empaque"],
    ["{weight} of it", "Pour {weight}", "{weight} de esto"],
    [
        "Where its share comes from",
        "D’où vient sa part",
        "De dónde viene su proporción",
    ],
    [
        "{share} of the {part}, grain-fed: {words}.",
        "{share} de la pièce « {part} », nourri au grain : {words}.",
        "{share} de la pieza «{part}», a grano: {words}.",
    ],
    // crates/advice/src/board_file.rs
    ["And {more} more.", "Et {more} de plus.", "Y {more} más."],
    [
        "Nothing has been changed. Mend the file and choose it again.",
        "Rien n’a été changé. Corrigez le fichier et choisissez-le de nouveau.",
        "No se ha cambiado nada. Corrija el archivo y elíjalo de nuevo.",
    ],
    [
        " Board of {date}.",
        " Tableau du {date}.",
        " Lista del {date}.",
    ],
    [
        "The file has the prices that are on the board now.{of_day}",
        "Le fichier a les prix qui sont au tableau maintenant.{of_day}",
        "El archivo tiene los precios que ya están en la lista.{of_day}",
    ],
    [
        "The file changes 1 price.{of_day}",
        "Le fichier change 1 prix.{of_day}",
        "El archivo cambia 1 precio.{of_day}",
    ],
    [
        "The file changes {more} prices.{of_day}",
        "Le fichier change {more} prix.{of_day}",
        "El archivo cambia {more} precios.{of_day}",
    ],
    [
        "Now, {currency} {per}",
        "Maintenant, {currency} {per}",
        "Ahora, {currency} {per}",
    ],
    [
        "In the file, {currency} {per}",
        "Au fichier, {currency} {per}",
        "En el archivo, {currency} {per}",
    ],
    ["What it changes", "Ce qu’il change", "Qué cambia"],
    [
        "Put these on the board",
        "Mettre ces prix au tableau",
        "Pasarlos a la lista",
    ],
    // crates/advice/src/grind.rs
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
        "{weight} of lean and fat trim, {fat} fat on the whole. Each line: the most of one class that can be blended from it alone, against {planned} of grind in the plan. Limits are Canada's; the fat of each trim is an estimate.",
        "{weight} de parures maigres et grasses, {fat} de gras en tout. Chaque ligne : le plus que l’on peut mélanger d’une seule catégorie, face aux {planned} de viande hachée du plan. Les limites sont celles du Canada; le gras de chaque parure est une estimation.",
        "{weight} de recorte magro y de grasa, {fat} de grasa en total. Cada línea: lo máximo de una sola clase que puede mezclarse con ello, frente a {planned} de molida en el plan. Los límites son los de Canadá; la grasa de cada recorte es una estimación.",
    ],
    ["Class", "Catégorie", "Clase"],
    ["Fat up to", "Gras jusqu’à", "Grasa hasta"],
    ["At most", "Au plus", "Máximo"],
    ["Against the plan", "Face au plan", "Frente al plan"],
    [
        "{product}: {weight}, {fat} fat of {most_fat} allowed, {fat_trim} of it fat trim.",
        "{product} : {weight}, {fat} de gras sur {most_fat} permis, dont {fat_trim} de parures de gras.",
        "{product}: {weight}, {fat} de grasa de {most_fat} permitido; de ello, {fat_trim} de recorte de grasa.",
    ],
    [
        "{over} short of lean",
        "il manque {over} de maigre",
        "le faltan {over} de magro",
    ],
    [
        "takes {over} of fat trim",
        "prend {over} de parures de gras",
        "admite {over} de recorte de grasa",
    ],
    // crates/advice/src/inputs.rs
    ["Charges on top", "Frais en plus", "Cargos adicionales"],
    [
        "All board prices",
        "Tous les prix affichés",
        "Todos los precios de lista",
    ],
    [
        "Saleable yield",
        "Rendement vendable",
        "Rendimiento vendible",
    ],
    ["Price", "Prix", "Precio"],
    ["Yield", "Rendement", "Rendimiento"],
    [
        "What is paid for, all sides.",
        "Ce qui est payé, toutes les demi-carcasses.",
        "Lo que se paga, todas las medias canales.",
    ],
    [
        "0 is grain-fed, 100 grass-fed.",
        "0 : au grain, 100 : à l’herbe.",
        "0 es a grano, 100 a pasto.",
    ],
    [
        "On top of those of the plan.",
        "En plus de ceux du plan.",
        "Además de los del plan.",
    ],
    [
        "For all sides.",
        "Pour toutes.",
        "Para todas las medias canales.",
    ],
    [
        "Before on-costs.",
        "Avant les charges sociales.",
        "Antes de cargas laborales.",
    ],
    [
        "As the shop counts it.",
        "Comme la boucherie le compte.",
        "Como lo cuenta la carnicería.",
    ],
    [
        "Of the weight cut.",
        "Du poids découpé.",
        "Del peso cortado.",
    ],
    [
        "More or less for every cut.",
        "Plus ou moins pour chaque coupe.",
        "Más o menos en cada corte.",
    ],
    [
        "Points of the side, more or less than planned.",
        "Points de la demi-carcasse, plus ou moins que prévu.",
        "Puntos de la media canal, más o menos que en el plan.",
    ],
    ["On the board.", "Au tableau.", "En la lista."],
    [
        "More or less than planned; trim of its part gives or takes.",
        "Plus ou moins que prévu; les parures de sa pièce donnent ou prennent la différence.",
        "Más o menos que en el plan; el recorte de su pieza lo da o lo toma.",
    ],
    ["{money}/pack", "{money}/emballage", "{money}/paquete"],
    ["always", "toujours", "siempre"],
    ["never", "jamais", "nunca"],
    ["from {value}", "dès {value}", "desde {value}"],
    ["up to {value}", "jusqu’à {value}", "hasta {value}"],
    // crates/advice/src/methods.rs
    [
        "Cost of each cut, {currency} {per}, divided by",
        "Coût de chaque coupe, {currency} {per}, réparti selon",
        "Costo de cada corte, {currency} {per}, repartido por",
    ],
    // crates/advice/src/panels/bars.rs
    ["Moves what", "Effet sur", "Efecto sobre"],
    [
        "Widest bar first.",
        "Barre la plus large d’abord.",
        "Primero la barra más ancha.",
    ],
    [
        "Walk-away price from low to high; the plan has {middle}",
        "Prix plafond, de bas à haut; le plan a {middle}",
        "Precio tope del valor bajo al alto; el plan tiene {middle}",
    ],
    [
        "Margin from low to high; the plan has {middle}",
        "Marge, de bas à haut; le plan a {middle}",
        "Margen del valor bajo al alto; el plan tiene {middle}",
    ],
    [
        "{name} moves it most: between {low} and {high} the margin runs from {low_margin} to {high_margin}.",
        "Ce qui pèse le plus : {name}. Entre {low} et {high}, la marge va de {low_margin} à {high_margin}.",
        "{name} es lo que más lo mueve: entre {low} y {high}, el margen va de {low_margin} a {high_margin}.",
    ],
    ["Range of", "Étendue de", "Rango de"],
    [
        "Whose low and high end to set.",
        "Donnée dont régler les bornes basse et haute.",
        "El dato cuyos extremos se fijan.",
    ],
    ["Low end", "Borne basse", "Extremo bajo"],
    ["High end", "Borne haute", "Extremo alto"],
    ["Figure", "Donnée", "Dato"],
    ["Low", "Bas", "Bajo"],
    ["High", "Haut", "Alto"],
    ["Margin, low", "Marge, bas", "Margen, bajo"],
    ["Margin, high", "Marge, haut", "Margen, alto"],
    ["Walk-away, low", "Plafond, bas", "Tope, bajo"],
    ["Walk-away, high", "Plafond, haut", "Tope, alto"],
    [
        "Where the range is from",
        "D’où vient l’étendue",
        "De dónde viene el rango",
    ],
    [
        "The bars as a table",
        "Les barres en tableau",
        "Las barras en una tabla",
    ],
    // crates/advice/src/panels/best_plan.rs
    [
        "The search was cut off before it was done: set fewer limits.",
        "La recherche a été interrompue avant la fin : fixez moins de limites.",
        "La búsqueda se cortó antes de terminar: ponga menos límites.",
    ],
    ["Best is", "Le meilleur est", "Lo mejor es"],
    [
        "What is to be greatest.",
        "Ce qui doit être le plus grand.",
        "Lo que debe ser mayor.",
    ],
    ["Most left over", "Le plus grand reste", "Lo que más deja"],
    [
        "Most for an hour at the bench",
        "Le plus par heure de table",
        "Lo que más deja por hora de mesa",
    ],
    ["Bench, at most", "Table, au plus", "Mesa, máximo"],
    [
        "Empty: no limit.",
        "Vide : sans limite.",
        "Vacío: sin límite.",
    ],
    ["Saw, at most", "Scie, au plus", "Sierra, máximo"],
    ["Grind, at least", "Haché, au moins", "Molida, mínimo"],
    ["Empty: any.", "Vide : au choix.", "Vacío: cualquiera."],
    [
        "Leave out bone-in back bone",
        "Exclure la colonne non désossée",
        "Sin cortes con espinazo",
    ],
    [
        "Allow it: cleared by the inspector",
        "Permettre : libérée par l’inspecteur",
        "Permitir: aprobado por el inspector",
    ],
    ["Back bone", "Colonne vertébrale", "Espinazo"],
    [
        "From cattle of 30 months and over, or of unknown age, it is not sold unless the inspector has cleared it.",
        "De bovins de 30 mois et plus, ou d’âge inconnu, elle ne se vend pas, sauf si l’inspecteur l’a libérée.",
        "De ganado de 30 meses o más, o de edad desconocida, no se vende salvo que el inspector lo haya aprobado.",
    ],
    ["Wishes for", "Souhaits pour", "Deseos para"],
    [
        "Set them below; wishes for other cuts stay.",
        "Réglez-les plus bas; les souhaits pour les autres coupes restent.",
        "Fíjelos abajo; los deseos para otros cortes quedan.",
    ],
    ["This cut", "Cette coupe", "Este corte"],
    ["May be there", "Peut y être", "Puede estar"],
    ["Must be there", "Doit y être", "Debe estar"],
    ["Must not be there", "Ne doit pas y être", "No debe estar"],
    [
        "The counter sells",
        "Le comptoir vend",
        "El mostrador vende",
    ],
    [
        "Of this cut, at most. Empty: any.",
        "De cette coupe, au plus. Vide : au choix.",
        "De este corte, como máximo. Vacío: cualquiera.",
    ],
    ["Bench", "Table", "Mesa"],
    ["Saw", "Scie", "Sierra"],
    [
        "Priced exactly, with grind made to classes, this plan does not keep every limit.",
        "Calculé exactement, avec la viande hachée par catégorie, ce plan ne respecte pas toutes les limites.",
        "Calculado con exactitud, con la molida hecha por clases, este plan no cumple todos los límites.",
    ],
    ["Cut it this way", "Découper ainsi", "Cortar así"],
    [
        "One more hour at the bench would be worth {worth}.",
        "Une heure de plus à la table vaudrait {worth}.",
        "Una hora más en la mesa valdría {worth}.",
    ],
    [
        "One more hour at the bench would bring nothing.",
        "Une heure de plus à la table ne rapporterait rien.",
        "Una hora más en la mesa no daría nada.",
    ],
    [
        "This plan is the best there is.",
        "Ce plan est le meilleur qui soit.",
        "Este plan es el mejor que hay.",
    ],
    [
        "The best plan within these limits leaves {less} less than this one, which does not keep them.",
        "Dans ces limites, le meilleur plan laisse {less} de moins que celui-ci, qui ne les respecte pas.",
        "El mejor plan dentro de estos límites deja {less} menos que este, que no los respeta.",
    ],
    [
        "The best plan leaves {more} more than this one.",
        "Le meilleur plan laisse {more} de plus que celui-ci.",
        "El mejor plan deja {more} más que este.",
    ],
    [
        "It cuts 1 part another way.",
        "Il découpe 1 pièce autrement.",
        "Corta 1 pieza de otra manera.",
    ],
    [
        "It cuts {count} parts another way.",
        "Il découpe {count} pièces autrement.",
        "Corta {count} piezas de otra manera.",
    ],
    ["plan {now}", "plan {now}", "plan {now}"],
    ["not reached", "non atteint", "no se obtiene"],
    [" and ", " et ", " y "],
    ["Part", "Pièce", "Pieza"],
    ["Now", "Actuel", "Ahora"],
    ["Then", "Ensuite", "Después"],
    ["Brings", "Rapporte", "Aporta"],
    ["Bench min", "Table, min", "Min mesa"],
    ["Saw min", "Scie, min", "Min sierra"],
    [
        "What it changes; each change alone, all others kept, so they need not sum",
        "Ce que cela change; chaque changement seul, tous les autres gardés : la somme peut donc différer",
        "Qué cambia; cada cambio por separado, con los demás mantenidos, así que no tienen que sumar",
    ],
    [
        "Otherwise than the best",
        "Autrement que le meilleur",
        "Distinto del mejor",
    ],
    [
        "The next-best plans",
        "Les meilleurs plans suivants",
        "Los siguientes mejores planes",
    ],
    [
        "Proven: none of the {plans} plans within the limits is better.",
        "Prouvé : aucun des {plans} plans dans les limites n’est meilleur.",
        "Demostrado: ninguno de los {plans} planes dentro de los límites es mejor.",
    ],
    [
        "Of {plans} plans, one that is better by up to {gap} may have been missed.",
        "Sur {plans} plans, un plan meilleur de {gap} au plus a pu échapper à la recherche.",
        "De {plans} planes, puede haberse pasado por alto uno mejor en hasta {gap}.",
    ],
    [
        "about {first}.{second} × 10{superscript}",
        "environ {first},{second} × 10{superscript}",
        "unos {first}.{second} × 10{superscript}",
    ],
    [
        "No plan keeps all of this: {limits}. Loosen one of them.",
        "Aucun plan ne respecte tout ceci : {limits}. Assouplissez l’une des limites.",
        "Ningún plan cumple todo esto: {limits}. Afloje uno de ellos.",
    ],
    [
        "Not all of these may be needed for the clash.",
        "Toutes ne sont peut-être pas nécessaires au conflit.",
        "Puede que no todos sean necesarios para el conflicto.",
    ],
    [
        "the time at the bench",
        "le temps à la table",
        "el tiempo en la mesa",
    ],
    [
        "the time at the saw",
        "le temps à la scie",
        "el tiempo en la sierra",
    ],
    [
        "the least of grind",
        "le minimum de viande hachée",
        "el mínimo de molida",
    ],
    [
        "the most of {name}",
        "le maximum pour {name}",
        "el máximo de {name}",
    ],
    [
        "{name} must be there",
        "présence obligatoire : {name}",
        "{name} debe estar",
    ],
    [
        "{name} must not be there",
        "présence exclue : {name}",
        "{name} no debe estar",
    ],
    [
        "bone-in back bone is left out",
        "la colonne vertébrale non désossée est exclue",
        "quedan fuera los cortes con espinazo",
    ],
    // crates/advice/src/panels/break_even.rs
    [
        "One figure moved at a time, all others as planned, at the target of {target}",
        "Une donnée bougée à la fois, les autres comme prévu, à la cible de {target}",
        "Un dato movido a la vez, los demás según el plan, con el objetivo de {target}",
    ],
    ["Stands at", "Au plan", "Está en"],
    [
        "Pays down to a saleable yield of {least}; the plan has {planned}.",
        "Rentable jusqu’à un rendement vendable aussi bas que {least}; le plan a {planned}.",
        "Rinde mientras el rendimiento vendible no baje de {least}; el plan tiene {planned}.",
    ],
    [
        "Pays up to {most} of labour.",
        "Rentable jusqu’à {most} de main-d’œuvre.",
        "Rinde hasta con {most} de mano de obra.",
    ],
    // crates/advice/src/panels/comparison.rs
    ["This plan", "Ce plan", "Este plan"],
    ["Plan", "Plan", "Plan"],
    [
        "This plan, or a saved one with its own deal.",
        "Ce plan, ou un plan gardé avec sa propre offre.",
        "Este plan, o uno guardado con su propia oferta.",
    ],
    ["Against", "Face à", "Frente a"],
    [
        "This deal cut by another plan, or a saved plan with its own deal.",
        "Cette offre découpée selon un autre plan, ou un plan gardé avec sa propre offre.",
        "Esta oferta cortada según otro plan, o un plan guardado con su propia oferta.",
    ],
    [
        "Both come to the same.",
        "Les deux reviennent au même.",
        "Ambos dan lo mismo.",
    ],
    ["this plan", "ce plan", "este plan"],
    [
        "{plan} leaves {by} less than {other}.",
        "{plan} laisse {by} de moins que {other}.",
        "{plan} deja {by} menos que {other}.",
    ],
    [
        "{plan} leaves {by} more than {other}.",
        "{plan} laisse {by} de plus que {other}.",
        "{plan} deja {by} más que {other}.",
    ],
    [
        "“{name}” cannot be worked out: {why}",
        "« {name} » ne peut pas être calculé : {why}",
        "«{name}» no se puede calcular: {why}",
    ],
    [
        "something in it is missing or cannot be read.",
        "quelque chose y manque ou est illisible.",
        "algo en él falta o no se puede leer.",
    ],
    [
        "There is no such plan.",
        "Ce plan n’existe pas.",
        "No existe ese plan.",
    ],
    [
        "Saleable {weight_unit}",
        "Vendable {weight_unit}",
        "Vendible, {weight_unit}",
    ],
    [
        "Of the chilled side",
        "De la demi-carcasse refroidie",
        "De la media canal fría",
    ],
    ["Minutes", "Minutes", "Minutos"],
    [
        "Of these at the saw",
        "Dont à la scie",
        "De ellos, en la sierra",
    ],
    ["Sales", "Ventes", "Ventas"],
    ["Walk-away {per}", "Plafond {per}", "Tope {per}"],
    [
        "{first} and {second}, the side as a whole",
        "{first} et {second}, la demi-carcasse entière",
        "{first} y {second}, la media canal completa",
    ],
    [
        "{name} cost {per}",
        "{name}, coût {per}",
        "{name}, costo {per}",
    ],
    ["{plan} sales", "{plan}, ventes", "{plan}, ventas"],
    ["Sales ±", "Ventes ±", "Ventas ±"],
    [
        "{first} and {second}, cut by cut",
        "{first} et {second}, coupe par coupe",
        "{first} y {second}, corte por corte",
    ],
    // crates/advice/src/panels/grid.rs
    ["Down", "En lignes", "Filas"],
    ["Across", "En colonnes", "Columnas"],
    [
        "Margin in each cell; ✓ makes the target of {target}, ✕ does not",
        "Marge dans chaque case; ✓ atteint la cible de {target}, ✕ ne l’atteint pas",
        "Margen en cada celda; ✓ alcanza el objetivo de {target}, ✕ no",
    ],
    [
        "The same figure stands on both sides: choose another for one of them.",
        "La même donnée est des deux côtés : choisissez-en une autre pour l’un d’eux.",
        "El mismo dato está en ambos lados: elija otro para uno de ellos.",
    ],
    [
        "Any figure of the plan.",
        "Toute donnée du plan.",
        "Cualquier dato del plan.",
    ],
    // crates/advice/src/panels/spread.rs
    [
        "Saleable strays by",
        "Écart du vendable",
        "Lo vendible varía",
    ],
    [
        "Points, one standard deviation.",
        "Points, un écart-type.",
        "Puntos, una desviación estándar.",
    ],
    ["Prices stray by", "Écart des prix", "Los precios varían"],
    [
        "Percent, one standard deviation.",
        "Pour cent, un écart-type.",
        "Por ciento, una desviación estándar.",
    ],
    [
        "Unsold strays by",
        "Écart de l’invendu",
        "Lo no vendido varía",
    ],
    ["How sure to be", "Certitude voulue", "Certeza deseada"],
    [
        "That the side pays.",
        "Que la demi-carcasse soit rentable.",
        "De que la media canal rinde.",
    ],
    ["Sides drawn", "Tirages", "Sorteos"],
    [
        "More take longer and tell finer.",
        "Plus il y en a, plus c’est long et plus c’est fin.",
        "Más tardan más y afinan más.",
    ],
    ["Series", "Série", "Serie"],
    [
        "The same series gives the same figures on every device.",
        "La même série donne les mêmes chiffres sur tout appareil.",
        "La misma serie da las mismas cifras en todo dispositivo.",
    ],
    ["nothing", "rien", "nada"],
    [
        "{chance} of {draws} sides drawn make the target of {target} (give or take {chance_error}). To be {sure} sure that it pays, offer at most {offer}.",
        "{chance} des {draws} demi-carcasses tirées atteignent la cible de {target} (à {chance_error} près). Pour être sûr à {sure} que c’est rentable, offre à ne pas dépasser : {offer}.",
        "{chance} de {draws} medias canales sorteadas alcanzan el objetivo de {target} (más o menos {chance_error}). Para tener una certeza de {sure} de que rinde, ofrezca como máximo {offer}.",
    ],
    ["Margin, middle", "Marge, milieu", "Margen, centro"],
    [
        "9 in 10 between {low} and {high}",
        "9 sur 10 entre {low} et {high}",
        "9 de cada 10 entre {low} y {high}",
    ],
    [
        "Walk-away price, middle",
        "Prix plafond, milieu",
        "Precio tope, centro",
    ],
    ["Left over, middle", "Reste, milieu", "Queda, centro"],
    ["5 in 100 below", "5 sur 100 sous", "5 de 100 por debajo"],
    ["middle", "milieu", "medio"],
    [
        "5 in 100 above",
        "5 sur 100 au-dessus",
        "5 de 100 por encima",
    ],
    ["Cost {per}, {of}", "Coût {per}, {of}", "Costo {per}, {of}"],
    [
        "What each cut may cost",
        "Ce que chaque coupe peut coûter",
        "Lo que puede costar cada corte",
    ],
    [
        "Known of the side",
        "Ce qu’on en sait",
        "Qué se sabe de ella",
    ],
    [
        "The more is known, the less it strays.",
        "Plus on en sait, moins la dispersion est grande.",
        "Cuanto más se sabe, menos varía.",
    ],
    [
        "Only how it was fed",
        "Seulement l’alimentation",
        "Solo cómo se alimentó",
    ],
    ["A herd you know", "Un troupeau connu", "Un hato conocido"],
    [
        "Its fat depth and weight",
        "Son épaisseur de gras et son poids",
        "Espesor de grasa y peso",
    ],
    [
        "A model: fatness is drawn first, saleable meat and bone give way to it, and single cuts stray on top, always to the whole side. How far saleable meat strays: {name}, {words}.",
        "Un modèle : l’engraissement est tiré d’abord, la viande vendable et les os s’y ajustent, puis chaque coupe varie à son tour, toujours dans le total de la demi-carcasse. Dispersion de la viande vendable : {name}, {words}.",
        "Un modelo: primero se sortea la gordura, la carne vendible y el hueso se ajustan a ella, y los cortes sueltos varían además, siempre hasta el total de la media canal. Cuánto varía la carne vendible: {name}, {words}.",
    ],
    [
        "Sides by their margin; outlined columns fall short of the target",
        "Demi-carcasses selon leur marge; les colonnes en contour restent sous la cible",
        "Medias canales según su margen; las columnas con solo contorno no alcanzan el objetivo",
    ],
    ["{low} to {high}", "{low} à {high}", "de {low} a {high}"],
    [
        "The columns as a table",
        "Les colonnes en tableau",
        "Las columnas en una tabla",
    ],
    ["Share|a column", "Part", "Proporción"],
    // crates/advice/src/panels/stocks.rs
    ["Walk-away, grain-fed", "Plafond, grain", "Tope, a grano"],
    ["Walk-away, grass-fed", "Plafond, herbe", "Tope, a pasto"],
    [
        "Both at the weight, price, charges and board above. Published are the shares of the whole side; how single cuts shift is a model. A grass-fed side is usually lighter: type its own weight to see that.",
        "Les deux au poids, au prix, aux frais et au tableau ci-dessus. Seules les parts de la demi-carcasse entière sont publiées; le déplacement de chaque coupe est un modèle. Une demi-carcasse nourrie à l’herbe est d’habitude plus légère : entrez son propre poids pour le voir.",
        "Ambas con el peso, el precio, los cargos y la lista de arriba. Están publicadas las proporciones de la media canal completa; cómo cambian los cortes sueltos es un modelo. Una media canal a pasto suele ser más ligera: escriba su propio peso para verlo.",
    ],
    ["{price} less", "{price} de moins", "{price} menos"],
    ["{price} more", "{price} de plus", "{price} más"],
    [
        "A grass-fed side of this weight leaves the same money when it costs {same_profit}, and the same margin on sales when it costs {same_margin}.",
        "Une demi-carcasse nourrie à l’herbe de ce poids laisse le même montant si elle coûte {same_profit}, et la même marge sur les ventes si elle coûte {same_margin}.",
        "Una media canal a pasto de este peso deja el mismo dinero cuando cuesta {same_profit}, y el mismo margen sobre ventas cuando cuesta {same_margin}.",
    ],
    ["Grain {weight}", "Grain {weight}", "Grano, {weight}"],
    ["Grass {weight}", "Herbe {weight}", "Pasto, {weight}"],
    [
        "Grain cost {per}",
        "Grain, coût {per}",
        "Grano, costo {per}",
    ],
    [
        "Grass cost {per}",
        "Herbe, coût {per}",
        "Pasto, costo {per}",
    ],
    ["Grain margin", "Grain, marge", "Grano, margen"],
    ["Grass margin", "Herbe, marge", "Pasto, margen"],
    [
        "Grain suggested {per}",
        "Grain, suggéré {per}",
        "Grano, sugerido {per}",
    ],
    [
        "Grass suggested {per}",
        "Herbe, suggéré {per}",
        "Pasto, sugerido {per}",
    ],
    [
        "Both stocks, cut by cut",
        "Grain et herbe, coupe par coupe",
        "Grano y pasto, corte por corte",
    ],
    // crates/advice/src/panels/trial.rs
    ["Use these", "Appliquer", "Usar estos datos"],
    [
        "A moved yield is tried here only: a plan takes its yields from the published tables.",
        "Un rendement bougé ne s’essaie qu’ici : un plan prend ses rendements dans les tables publiées.",
        "Un rendimiento movido solo se prueba aquí: un plan toma sus rendimientos de las tablas publicadas.",
    ],
    ["One cut", "Une coupe", "Un corte"],
    [
        "Its price and its yield can be moved below.",
        "Son prix et son rendement se bougent plus bas.",
        "Su precio y su rendimiento pueden moverse abajo.",
    ],
    [
        "Pays: makes the target of {target} up to {offer}.",
        "Rentable : atteint la cible de {target} jusqu’à {offer}.",
        "Rinde: alcanza el objetivo de {target} hasta {offer}.",
    ],
    [
        "Thin: covers its costs, not the target of {target}. Offer {offer} or less.",
        "Juste : couvre ses coûts, pas la cible de {target}. Offrez {offer} ou moins.",
        "Justo: cubre sus costos, no el objetivo de {target}. Ofrezca {offer} o menos.",
    ],
    [
        "Falls short: costs {profit} more than it brings. Offer {offer} or less.",
        "Déficitaire : coûte {profit} de plus que ce qu’elle rapporte. Offrez {offer} ou moins.",
        "No alcanza: cuesta {profit} más de lo que da. Ofrezca {offer} o menos.",
    ],
    ["plan {plan}", "plan {plan}", "plan {plan}"],
    ["Cost {per}", "Coût {per}", "Costo {per}"],
    ["Price {per}", "Prix {per}", "Precio {per}"],
    ["Suggested {per}", "Suggéré {per}", "Sugerido {per}"],
    [
        "Every cut with these figures",
        "Chaque coupe avec ces chiffres",
        "Cada corte con estos datos",
    ],
    // crates/advice/src/printed.rs
    ["Cutting sheet", "Feuille de découpe", "Hoja de despiece"],
    ["Price cards", "Étiquettes de prix", "Etiquetas de precio"],
    ["Cost sheet", "Feuille de coûts", "Hoja de costos"],
    [
        "Lot or tag: {lot}",
        "Lot ou étiquette : {lot}",
        "Lote o etiqueta: {lot}",
    ],
    [
        "{date}. Chilled side: {side}. Plan: {plan}.",
        "{date}. Demi-carcasse refroidie : {side}. Plan : {plan}.",
        "{date}. Media canal fría: {side}. Plan: {plan}.",
    ],
    ["Care", "Prudence", "Cuidado"],
    [
        " Care: {cautions}.",
        " Prudence : {cautions}.",
        " Cuidado: {cautions}.",
    ],
    ["Comes off", "S’en détache", "Lo que sale"],
    ["Item", "Article", "Código"],
    ["Expected", "Attendu", "Esperado"],
    ["Weighed", "Pesé", "Pesado"],
    [
        "{part} (goes on below)",
        "{part} (suite plus bas)",
        "{part} (sigue abajo)",
    ],
    [
        "Sample price: not for the case.",
        "Prix d’exemple : pas pour le comptoir.",
        "Precio de ejemplo: no va a la vitrina.",
    ],
    ["Board {per}", "Affiché {per}", "Lista {per}"],
    ["By-products", "Sous-produits", "Subproductos"],
    // crates/advice/src/request.rs
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
    // crates/advice/src/saved_file.rs
    [
        "The file holds no plan.",
        "Le fichier ne contient aucun plan.",
        "El archivo no contiene ningún plan.",
    ],
    [
        "All plans of the file are saved here already.",
        "Tous les plans du fichier sont déjà gardés ici.",
        "Todos los planes del archivo ya están guardados aquí.",
    ],
    [
        "{new} of the {all} plans in the file are new. Nothing that is saved here changes.",
        "Plans nouveaux dans le fichier : {new} sur {all}. Rien de ce qui est gardé ici ne change.",
        "De los {all} planes del archivo, nuevos: {new}. Nada de lo guardado aquí cambia.",
    ],
    [
        "Plans in the file",
        "Plans dans le fichier",
        "Planes del archivo",
    ],
    ["Becomes", "Devient", "Resultado"],
    ["is here already", "est déjà ici", "ya está aquí"],
    ["is added", "est ajouté", "se añade"],
    [
        "is added as “{name}”",
        "est ajouté sous « {name} »",
        "se añade como «{name}»",
    ],
    [
        "Nothing has been changed.",
        "Rien n’a été changé.",
        "No se ha cambiado nada.",
    ],
    // crates/advice/src/share.rs
    [
        "The link as a QR code",
        "Le lien en code QR",
        "El enlace como código QR",
    ],
    [
        "For the camera of another phone.",
        "Pour l’appareil photo d’un autre téléphone.",
        "Para la cámara de otro teléfono.",
    ],
    [
        "The amounts of this link are in {theirs}, yours are in {own}: what it leaves out stays as it was, and nothing is converted.",
        "Les montants de ce lien sont en {theirs}, les vôtres en {own} : ce qu’il ne contient pas reste tel quel, et rien n’est converti.",
        "Los importes de este enlace están en {theirs}, los suyos en {own}: lo que no contiene queda como estaba, y nada se convierte.",
    ],
    ["Open it", "Ouvrir ce plan", "Abrirlo"],
    [
        "Nothing has been changed. Opening it puts this in the place of what is typed now; one tap takes that back.",
        "Rien n’a été changé. L’ouvrir met ceci à la place de ce qui est entré maintenant; un toucher suffit pour revenir en arrière.",
        "No se ha cambiado nada. Al abrirlo, esto ocupa el lugar de lo que está escrito ahora; un toque lo deshace.",
    ],
    [
        "This link holds a cut plan. The deal, the costs and the prices stay yours.",
        "Ce lien contient un plan de découpe. L’offre, les coûts et les prix restent les vôtres.",
        "Este enlace contiene un plan de despiece. La oferta, los costos y los precios siguen siendo los suyos.",
    ],
    [
        "This link holds a cut plan and a deal. The costs and the prices stay yours.",
        "Ce lien contient un plan de découpe et une offre. Les coûts et les prix restent les vôtres.",
        "Este enlace contiene un plan de despiece y una oferta. Los costos y los precios siguen siendo los suyos.",
    ],
    [
        "This link holds a cut plan, a deal and the costs of a shop. The prices stay yours.",
        "Ce lien contient un plan de découpe, une offre et les coûts d’une boucherie. Les prix restent les vôtres.",
        "Este enlace contiene un plan de despiece, una oferta y los costos de una carnicería. Los precios siguen siendo los suyos.",
    ],
    [
        "This link holds all of a side: cut plan, deal, costs and prices.",
        "Ce lien contient tout d’une demi-carcasse : plan de découpe, offre, coûts et prix.",
        "Este enlace contiene todo de una media canal: plan de despiece, oferta, costos y precios.",
    ],
    [
        "It has no verdict yet: weight or price is still to be typed.",
        "Pas encore de verdict : le poids ou le prix reste à entrer.",
        "Aún no tiene veredicto: falta escribir el peso o el precio.",
    ],
    [
        "It has no verdict: something in it cannot be read. Opened, it says what and where.",
        "Pas de verdict : quelque chose y est illisible. Une fois ouvert, il dit quoi et où.",
        "No tiene veredicto: algo en él no se puede leer. Al abrirlo, dice qué y dónde.",
    ],
    [
        "{plan}, one step of its own",
        "{plan}, une étape modifiée",
        "{plan}, con un paso propio",
    ],
    [
        "{plan}, {changed} steps of its own",
        "{plan}, {changed} étapes modifiées",
        "{plan}, con {changed} pasos propios",
    ],
    ["Way to grass-fed", "Vers l’herbe", "Avance hacia pasto"],
    // crates/advice/src/worked_out.rs
    ["Source: {source}", "Source : {source}", "Fuente: {source}"],
    [
        "Sources of the figures",
        "Sources des chiffres",
        "Fuentes de las cifras",
    ],
    [
        "Weight that hangs",
        "Poids en chambre froide",
        "Peso que cuelga",
    ],
    [
        "The weight you pay for becomes the weight of the chilled side. Cooler shrink is your own figure, or follows from the days hung.",
        "Le poids que vous payez devient le poids de la demi-carcasse refroidie. La freinte est la vôtre, ou découle des jours de ressuage.",
        "El peso que usted paga pasa a ser el de la media canal fría. La merma de cámara es la suya, o resulta de los días colgada.",
    ],
    [
        "chilled = hot × (1 − shrink); hot = live ÷ 2 × dressing share; shrink over days = 1 − (1 − first day) × (1 − per day)^(days − 1)",
        "froid = chaud × (1 − freinte) ; chaud = vif ÷ 2 × rendement carcasse ; freinte sur des jours = 1 − (1 − premier jour) × (1 − par jour)^(jours − 1)",
        "fría = caliente × (1 − merma); caliente = vivo ÷ 2 × rendimiento en canal; merma por días = 1 − (1 − primer día) × (1 − por día)^(días − 1)",
    ],
    [
        "Kansas State University 1972; Purdue University (Lemenager).",
        "Kansas State University 1972 ; Purdue University (Lemenager).",
        "Kansas State University 1972; Purdue University (Lemenager).",
    ],
    [
        "Weight of every cut",
        "Poids de chaque coupe",
        "Peso de cada corte",
    ],
    [
        "Each way of breaking a part gives shares of it that sum to exactly one: cuts, by-products and losses. Going down the tree of the plan, the weights of all of them sum to the side.",
        "Chaque façon de découper une pièce en donne des parts qui font exactement un : coupes, sous-produits et pertes. En descendant l’arbre du plan, tous les poids font ensemble la demi-carcasse.",
        "Cada manera de despiezar una pieza da partes de ella que suman exactamente uno: cortes, subproductos y pérdidas. Bajando por el árbol del plan, todos los pesos suman la media canal.",
    ],
    [
        "weight of an output = weight of the part × its share",
        "poids d’une sortie = poids de la pièce × sa part",
        "peso de una salida = peso de la pieza × su proporción",
    ],
    [
        "The source of each share stands behind its cut under Prices.",
        "La source de chaque part se trouve derrière sa coupe, sous Prix.",
        "La fuente de cada proporción está detrás de su corte, en Precios.",
    ],
    [
        "Grass-fed and grain-fed",
        "Nourri à l’herbe et nourri au grain",
        "A pasto y a grano",
    ],
    [
        "Grain-fed shares are published. Grass-fed ones are a model: fat falls and bone rises by the ratio of two published averages, a cut follows its published correlation with fatness, and the rest closes to one. Between the two lies the straight line.",
        "Les parts au grain sont publiées. Celles à l’herbe sont un modèle : le gras baisse et l’os monte selon le rapport de deux moyennes publiées, une coupe suit sa corrélation publiée avec l’état d’engraissement, et le reste ferme à un. Entre les deux, une ligne droite.",
        "Las proporciones a grano están publicadas. Las de pasto son un modelo: la grasa baja y el hueso sube según la razón de dos promedios publicados, un corte sigue su correlación publicada con el engrasamiento, y el resto cierra en uno. Entre ambas, una línea recta.",
    ],
    [
        "share = grain + way to grass-fed × (grass − grain)",
        "part = grain + chemin vers l’herbe × (herbe − grain)",
        "proporción = grano + camino a pasto × (pasto − grano)",
    ],
    [
        "Judge et al. 2019, J Anim Sci 97:2769; Koch et al.",
        "Judge et al. 2019, J Anim Sci 97:2769 ; Koch et al.",
        "Judge et al. 2019, J Anim Sci 97:2769; Koch et al.",
    ],
    [
        "The yield grade from what the grader measured, and what a side of that grade is expected to give. An estimate for your own use: only a grader gives an official grade.",
        "La catégorie de rendement d’après ce que le classificateur a mesuré, et ce qu’on attend d’une demi-carcasse de cette catégorie. Une estimation pour votre usage : seul un classificateur donne une catégorie officielle.",
        "El grado de rendimiento según lo que midió el clasificador, y lo que se espera de una media canal de ese grado. Una estimación para uso propio: solo un clasificador da un grado oficial.",
    ],
    [
        "grade = 2.50 + 2.50 × back fat (in) + 0.20 × kidney fat (%) + 0.0038 × hot carcass (lb) − 0.32 × ribeye area (in²)",
        "catégorie = 2,50 + 2,50 × gras dorsal (po) + 0,20 × gras de rognon (%) + 0,0038 × carcasse chaude (lb) − 0,32 × surface du faux-filet (po²)",
        "grado = 2.50 + 2.50 × grasa dorsal (pulg) + 0.20 × grasa de riñón (%) + 0.0038 × canal caliente (lb) − 0.32 × área del ojo de bife (pulg²)",
    ],
    [
        "7 CFR 54.105(a), United States; Kansas State University 1976, 1996.",
        "7 CFR 54.105(a), États-Unis ; Kansas State University 1976, 1996.",
        "7 CFR 54.105(a), Estados Unidos; Kansas State University 1976, 1996.",
    ],
    [
        "Classes of grind",
        "Classes de viande hachée",
        "Clases de molida",
    ],
    [
        "Trims are blended by the mass balance of their fat, the leanest first, so that the limit of each class holds exactly.",
        "Les parures se mélangent selon le bilan de leur gras, les plus maigres d’abord, de sorte que la limite de chaque classe tient exactement.",
        "Los recortes se mezclan por el balance de su grasa, los más magros primero, de modo que el límite de cada clase se cumple exactamente.",
    ],
    [
        "lean share = (fat of the fat trim − limit) ÷ (fat of the fat trim − fat of the lean trim)",
        "part maigre = (gras des parures grasses − limite) ÷ (gras des parures grasses − gras des parures maigres)",
        "parte magra = (grasa del recorte graso − límite) ÷ (grasa del recorte graso − grasa del recorte magro)",
    ],
    [
        "Pearson square, a handbook rule; limits of the classes are Canada’s.",
        "Carré de Pearson, règle des manuels ; les limites des classes sont celles du Canada.",
        "Cuadrado de Pearson, regla de manual; los límites de las clases son los de Canadá.",
    ],
    ["What is spent", "Ce qui est dépensé", "Lo que se gasta"],
    [
        "All that the side costs until it is sold. What the by-products bring is taken off; the cuts must carry the rest.",
        "Tout ce que coûte la demi-carcasse jusqu’à la vente. Ce que rapportent les sous-produits est déduit ; les coupes doivent porter le reste.",
        "Todo lo que cuesta la media canal hasta venderse. Lo que dan los subproductos se descuenta; los cortes deben cargar el resto.",
    ],
    [
        "spend = price × weight + charges + minutes × (rate × (1 + on-costs) + overhead) + packaging; cuts carry = spend − by-products",
        "dépense = prix × poids + frais + minutes × (taux × (1 + charges) + frais généraux) + emballage ; à porter = dépense − sous-produits",
        "gasto = precio × peso + cargos + minutos × (tarifa × (1 + cargas) + gastos generales) + empaque; a cargar = gasto − subproductos",
    ],
    [
        "Horngren et al., Cost Accounting, ch. 16 (joint cost, by-products by the production method).",
        "Horngren et al., Cost Accounting, ch. 16 (coût joint, sous-produits à la production).",
        "Horngren et al., Cost Accounting, cap. 16 (costo conjunto, subproductos por el método de producción).",
    ],
    [
        "Cost of every cut",
        "Coût de chaque coupe",
        "Costo de cada corte",
    ],
    [
        "The cost of a part and of breaking it is divided over what comes off it, by the method chosen under Prices. To the cent, the costs of all cuts sum to what they must carry.",
        "Le coût d’une pièce et de sa découpe est réparti sur ce qui en sort, selon la méthode choisie sous Prix. Au cent près, les coûts de toutes les coupes font ce qu’elles doivent porter.",
        "El costo de una pieza y de despiezarla se reparte entre lo que sale de ella, por el método elegido en Precios. Al centavo, los costos de todos los cortes suman lo que deben cargar.",
    ],
    [
        "by weight: cost × w ÷ Σw; by sales: cost × v ÷ Σv; by net value: cost × n ÷ Σn with n = sales − costs of its own; by constant margin: sales × (1 − g) − costs of its own",
        "au poids : coût × p ÷ Σp ; aux ventes : coût × v ÷ Σv ; à la valeur nette : coût × n ÷ Σn, n = ventes − coûts propres ; à marge constante : ventes × (1 − g) − coûts propres",
        "por peso: costo × p ÷ Σp; por ventas: costo × v ÷ Σv; por valor neto: costo × n ÷ Σn con n = ventas − costos propios; por margen constante: ventas × (1 − g) − costos propios",
    ],
    [
        "Horngren et al., Cost Accounting, ch. 16.",
        "Horngren et al., Cost Accounting, ch. 16.",
        "Horngren et al., Cost Accounting, cap. 16.",
    ],
    [
        "What is lost in the pack and what is never sold earns nothing; what is marked down earns less.",
        "Ce qui se perd dans l’emballage et ce qui ne se vend jamais ne rapporte rien ; ce qui est démarqué rapporte moins.",
        "Lo que se pierde en el empaque y lo que nunca se vende no da nada; lo rebajado da menos.",
    ],
    [
        "sales = Σ weight × (1 − purge) × (1 − unsold) × price × (1 − marked down × mark-down)",
        "ventes = Σ poids × (1 − exsudat) × (1 − invendus) × prix × (1 − démarqué × démarque)",
        "ventas = Σ peso × (1 − exudado) × (1 − no vendido) × precio × (1 − rebajado × rebaja)",
    ],
    ["Common practice.", "Pratique courante.", "Práctica común."],
    [
        "Margin and verdict",
        "Marge et verdict",
        "Margen y veredicto",
    ],
    [
        "Pays: the margin on sales makes the target. Thin: it covers its costs, not the target. Falls short: it costs more than it brings. Margins are cut down, never up, to the digit shown.",
        "Rentable : la marge sur les ventes atteint la cible. Juste : elle couvre les coûts, pas la cible. Déficitaire : la pièce coûte plus qu’elle ne rapporte. Les marges sont tronquées, jamais arrondies vers le haut.",
        "Rinde: el margen sobre ventas alcanza el objetivo. Justo: cubre los costos, no el objetivo. No alcanza: cuesta más de lo que da. Los márgenes se truncan, nunca se redondean hacia arriba.",
    ],
    [
        "margin = (sales − what the cuts carry) ÷ sales; markup = margin ÷ (1 − margin)",
        "marge = (ventes − ce que portent les coupes) ÷ ventes ; majoration = marge ÷ (1 − marge)",
        "margen = (ventas − lo que cargan los cortes) ÷ ventas; recargo = margen ÷ (1 − margen)",
    ],
    [
        "Common practice of retail accounts.",
        "Pratique courante des comptes de détail.",
        "Práctica común de las cuentas minoristas.",
    ],
    [
        "The most the side is worth at the target: put back as its price, it gives the target exactly. Shown cut down to the cent.",
        "Le plus que vaut la demi-carcasse à la cible : remis comme prix, il donne exactement la cible. Affiché tronqué au cent.",
        "Lo más que vale la media canal con el objetivo: puesto como precio, da el objetivo exacto. Se muestra truncado al centavo.",
    ],
    [
        "walk-away = ((1 − target) × sales + by-products − packaging − labour − charges) ÷ weight paid for",
        "plafond = ((1 − cible) × ventes + sous-produits − emballage − travail − frais) ÷ poids payé",
        "tope = ((1 − objetivo) × ventas + subproductos − empaque − trabajo − cargos) ÷ peso pagado",
    ],
    [
        "Derived here; linear in the price.",
        "Établi ici ; linéaire en prix.",
        "Deducido aquí; lineal en el precio.",
    ],
    ["Suggested prices", "Prix suggérés", "Precios sugeridos"],
    [
        "Every price on the board is lifted by one factor, so that the cuts keep their places, until the side makes the target. Prices you hold stay; endings never leave the side short of the target.",
        "Chaque prix affiché est multiplié par un même facteur, pour que les coupes gardent leur rang, jusqu’à ce que la demi-carcasse atteigne la cible. Les prix que vous tenez restent ; les terminaisons ne laissent jamais la cible hors d’atteinte.",
        "Cada precio de lista se multiplica por un mismo factor, para que los cortes mantengan su lugar, hasta que la media canal alcanza el objetivo. Los precios que usted fija quedan; las terminaciones nunca dejan el objetivo sin alcanzar.",
    ],
    [
        "the least factor for which Σ held price × weight + Σ (factor × board price, within its bounds) × weight = sales required",
        "le plus petit facteur tel que Σ prix tenu × poids + Σ (facteur × prix affiché, dans ses bornes) × poids = ventes requises",
        "el menor factor con el que Σ precio fijo × peso + Σ (factor × precio de lista, dentro de sus límites) × peso = ventas requeridas",
    ],
    ["Derived here.", "Établi ici.", "Deducido aquí."],
    [
        "How sure, and which plan is best",
        "Certitude et meilleur plan",
        "Certeza y mejor plan",
    ],
    [
        "Thousands of sides are drawn from published variation, always to the whole side, and each is priced. The best plan is searched over every way of every part at once; whatever is shown has been priced again exactly.",
        "Des milliers de demi-carcasses sont tirées selon la variation publiée, toujours rapportées au tout, et chacune est chiffrée. Le meilleur plan est cherché sur toutes les façons de toutes les pièces à la fois ; tout ce qui est montré a été rechiffré exactement.",
        "Se sortean miles de medias canales según la variación publicada, siempre referidas al total, y se calcula cada una. El mejor plan se busca entre todas las maneras de todas las piezas a la vez; todo lo mostrado se ha vuelto a calcular con exactitud.",
    ],
    [
        "chance = sides drawn that make the target ÷ sides drawn",
        "chance = tirages qui atteignent la cible ÷ tirages",
        "probabilidad = sorteos que alcanzan el objetivo ÷ sorteos",
    ],
    [
        "Judge et al. 2019; Kansas State University 1976, 1996.",
        "Judge et al. 2019 ; Kansas State University 1976, 1996.",
        "Judge et al. 2019; Kansas State University 1976, 1996.",
    ],
    ["Numbers", "Nombres", "Números"],
    [
        "All amounts are exact decimals. They are rounded once, where they are shown; amounts to the cent are tied by largest remainder, so that totals always agree.",
        "Tous les montants sont des décimaux exacts. Ils sont arrondis une fois, là où ils sont affichés ; au cent, le plus fort reste fait concorder les totaux.",
        "Todos los importes son decimales exactos. Se redondean una vez, donde se muestran; al centavo, el resto mayor hace que los totales siempre cuadren.",
    ],
    [
        "1 lb = 0.45359237 kg",
        "1 lb = 0,45359237 kg",
        "1 lb = 0.45359237 kg",
    ],
    [
        "International yard and pound agreement, 1959.",
        "Accord international du yard et de la livre, 1959.",
        "Acuerdo internacional de la yarda y la libra, 1959.",
    ],
    // crates/advice/src/written.rs
    ["Back to plan", "Retour au plan", "Volver al plan"],
    [
        "{label}, slider",
        "{label}, curseur",
        "{label}, control deslizante",
    ],
    [
        "{label}: back to plan",
        "{label} : retour au plan",
        "{label}: volver al plan",
    ],
    // crates/carcass/src/catalogue.rs
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
    [
        "read in a secondary copy",
        "lu dans une copie secondaire",
        "leído en una copia secundaria",
    ],
    // crates/decision/src/stated_spread.rs
    [
        "No published figure: an estimate, put your own",
        "Aucun chiffre publié : une estimation, mettez la vôtre",
        "No hay cifra publicada: es una estimación, ponga la suya",
    ],
    [
        "Spread an estimate; the mean retail loss of fresh meat, poultry and seafood is 4.5 % (USDA ERS, EIB-44, 2009)",
        "Dispersion estimée; la perte moyenne au détail de viande, volaille et produits de la mer frais est de 4,5 % (USDA ERS, EIB-44, 2009)",
        "Dispersión estimada; la pérdida media en el comercio minorista de carne, aves, pescados y mariscos frescos es 4.5 % (USDA ERS, EIB-44, 2009)",
    ],
    [
        "One standard deviation of a fed side of unknown grade, 3.6 to 4.1 points: spread of yield grade 0.89 times 4.0 to 4.6 points a grade (Kansas State University 1996, 1976)",
        "Un écart-type d’une demi-carcasse engraissée de catégorie inconnue, 3,6 à 4,1 points : dispersion de la catégorie de rendement de 0,89 multipliée par 4,0 à 4,6 points par catégorie (Kansas State University 1996, 1976)",
        "Una desviación estándar de una media canal de engorde de grado desconocido, de 3.6 a 4.1 puntos: dispersión del grado de rendimiento de 0.89 por 4.0 a 4.6 puntos por grado (Kansas State University 1996, 1976)",
    ],
    [
        "One standard deviation at a given side weight is 5.9 to 11.3 % by cut (derived from Judge et al. 2019, J Anim Sci 97:2769); 8 % stands for all",
        "Un écart-type à un poids donné de demi-carcasse est de 5,9 à 11,3 % selon la coupe (dérivé de Judge et al. 2019, J Anim Sci 97:2769); 8 % vaut pour toutes",
        "Una desviación estándar a un peso dado de media canal es de 5.9 a 11.3 % según el corte (derivado de Judge et al. 2019, J Anim Sci 97:2769); 8 % vale por todos",
    ],
    // crates/link/src/lib.rs
    [
        "This link is far longer than any plan. Nothing of it was read.",
        "Ce lien est bien plus long que n’importe quel plan. Rien n’en a été lu.",
        "Este enlace es mucho más largo que cualquier plan. No se leyó nada de él.",
    ],
    [
        "This link holds no plan.",
        "Ce lien ne contient aucun plan.",
        "Este enlace no contiene ningún plan.",
    ],
    [
        "This link was made by a newer version of the app. Reload the page to get it, then open the link again.",
        "Ce lien a été fait par une version plus récente de l’application. Rechargez la page pour l’obtenir, puis rouvrez le lien.",
        "Este enlace se hizo con una versión más nueva de la aplicación. Recargue la página para obtenerla y abra el enlace otra vez.",
    ],
    [
        "This link is incomplete: its end is missing. Ask for it again, and copy the whole of it.",
        "Ce lien est incomplet : la fin manque. Redemandez-le et copiez-le en entier.",
        "Este enlace está incompleto: le falta el final. Pídalo otra vez y cópielo entero.",
    ],
    [
        "This link was changed on its way and cannot be read. Ask for it again.",
        "Ce lien a été modifié en route et est illisible. Redemandez-le.",
        "Este enlace se alteró en el camino y no se puede leer. Pídalo otra vez.",
    ],
    // crates/pricing/src/allocation.rs
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
    // crates/pricing/src/board_file/price_cells.rs
    [
        "There is no price: fill one of {columns}, or leave the line out.",
        "Il n’y a pas de prix : remplissez l’une des colonnes {columns}, ou omettez la ligne.",
        "No hay precio: llene una de {columns}, o quite la línea.",
    ],
    [
        "{column}: {number} is out of range: write a price up to {largest}.",
        "{column} : {number} est hors limites : écrivez un prix d’au plus {largest}.",
        "{column}: {number} está fuera de rango: escriba un precio hasta {largest}.",
    ],
    [
        "{column} {price} and {other} {other_price} are not the same price: keep the one that is right and empty the other, or its whole column.",
        "{column} {price} et {other} {other_price} ne sont pas le même prix : gardez celui qui est juste et videz l’autre, ou toute sa colonne.",
        "{column} {price} y {other} {other_price} no son el mismo precio: deje el correcto y vacíe el otro, o toda su columna.",
    ],
    // crates/pricing/src/board_file/reading.rs
    [
        "Line {line}: {message}",
        "Ligne {line} : {message}",
        "Línea {line}: {message}",
    ],
    [
        "The file is larger than {size} KiB: keep one line for each product.",
        "Le fichier dépasse {size} Kio : gardez une ligne par produit.",
        "El archivo es mayor que {size} KiB: deje una línea por producto.",
    ],
    [
        "The file is not plain text: save it from the spreadsheet as CSV.",
        "Le fichier n’est pas du texte brut : enregistrez-le en CSV depuis le tableur.",
        "El archivo no es texto simple: guárdelo como CSV desde la hoja de cálculo.",
    ],
    [
        "The file has more than {most_lines} lines: keep one line for each product.",
        "Le fichier a plus de {most_lines} lignes : gardez une ligne par produit.",
        "El archivo tiene más de {most_lines} líneas: deje una línea por producto.",
    ],
    [
        "The file is empty: its first line must name the columns, such as {product},{price}.",
        "Le fichier est vide : sa première ligne doit nommer les colonnes, par exemple {product},{price}.",
        "El archivo está vacío: su primera línea debe nombrar las columnas, como {product},{price}.",
    ],
    [
        "“{field}” is not a column: the first line names the columns, of {columns}.",
        "« {field} » n’est pas une colonne : la première ligne nomme les colonnes, parmi {columns}.",
        "«{field}» no es una columna: la primera línea nombra las columnas, de entre {columns}.",
    ],
    [
        "The column “{column}” is there twice: keep one.",
        "La colonne « {column} » y est deux fois : gardez-en une.",
        "La columna «{column}» está dos veces: deje una.",
    ],
    [
        "The first line must name the column {product} and one of {prices}.",
        "La première ligne doit nommer la colonne {product} et l’une de celles-ci : {prices}.",
        "La primera línea debe nombrar la columna {product} y una de {prices}.",
    ],
    [
        "{fields} fields where the first line names {columns}: put a text with a separator in it between double quotes.",
        "{fields} champs alors que la première ligne en nomme {columns} : mettez entre guillemets droits doubles un texte qui contient un séparateur.",
        "{fields} campos donde la primera línea nombra {columns}: ponga entre comillas dobles un texto que lleve un separador.",
    ],
    [
        "“{id}” is on line {first} already: keep one of the two.",
        "« {id} » est déjà à la ligne {first} : gardez l’une des deux.",
        "«{id}» ya está en la línea {first}: deje una de las dos.",
    ],
    [
        "The price of a cut is below zero: only a by-product can cost to be rid of.",
        "Le prix d’une coupe est sous zéro : seul un sous-produit peut coûter pour s’en défaire.",
        "El precio de un corte está bajo cero: solo en un subproducto puede costar deshacerse de él.",
    ],
    [
        "“{typed}” is not a product: write “{id}”.",
        "« {typed} » n’est pas un produit : écrivez « {id} ».",
        "«{typed}» no es un producto: escriba «{id}».",
    ],
    [
        "“{typed}” is not a product: write its id as an exported board has it, or leave the line out.",
        "« {typed} » n’est pas un produit : écrivez son identifiant comme dans un tableau exporté, ou omettez la ligne.",
        "«{typed}» no es un producto: escriba su id como figura en una lista exportada, o quite la línea.",
    ],
    [
        "“{id}” is a loss, which nobody pays for: leave the line out.",
        "« {id} » est une perte, que personne ne paie : omettez la ligne.",
        "«{id}» es una pérdida, que nadie paga: quite la línea.",
    ],
    [
        "{column}: “{typed}” is neither yes nor no: write one of them.",
        "{column} : « {typed} » n’est ni « yes » ni « no » : écrivez l’un des deux.",
        "{column}: «{typed}» no es ni «yes» ni «no»: escriba uno de los dos.",
    ],
    // crates/shelf/src/file.rs
    [
        "The file is longer than {size} MB, which no saved plans are.",
        "Le fichier dépasse {size} Mo, ce qu’aucun fichier de plans gardés n’atteint.",
        "El archivo supera {size} MB, lo que ningún archivo de planes guardados alcanza.",
    ],
    [
        "Line {line}, column {column}: {what}.",
        "Ligne {line}, colonne {column} : {what}.",
        "Línea {line}, columna {column}: {what}.",
    ],
    [
        "The file holds something other than saved plans.",
        "Le fichier contient autre chose que des plans gardés.",
        "El archivo contiene algo distinto de planes guardados.",
    ],
    [
        "A newer version of the app wrote the file (version {version}, this one reads {newest}). Reload the page to get it.",
        "Une version plus récente de l’application a écrit le fichier (version {version}, celle-ci lit {newest}). Rechargez la page pour l’obtenir.",
        "Una versión más nueva de la aplicación escribió el archivo (versión {version}, esta lee {newest}). Recargue la página para obtenerla.",
    ],
    [
        "The file has more than {most} plans.",
        "Le fichier contient plus de {most} plans.",
        "El archivo tiene más de {most} planes.",
    ],
    [
        "Plan {number}, “{name}”: “{entry}” is no entry of a plan, or its value cannot be.",
        "Plan {number}, « {name} » : « {entry} » n’est pas une entrée de plan, ou sa valeur est impossible.",
        "Plan {number}, «{name}»: «{entry}» no es una entrada de un plan, o su valor no es posible.",
    ],
    [
        "Plan {number} has no name.",
        "Le plan {number} n’a pas de nom.",
        "El plan {number} no tiene nombre.",
    ],
];
