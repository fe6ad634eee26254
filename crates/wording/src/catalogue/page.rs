//! What the page itself says.

use super::Row;

/// The rows, by where they are said.
pub(super) const ROWS: &[Row] = &[
    // web/src/app.rs
    [
        "The figures that come with the app are damaged: {error}. Reload the page.",
        "Les données fournies avec l’application sont endommagées : {error}. Rechargez la page.",
        "Los datos que trae la aplicación están dañados: {error}. Recargue la página.",
    ],
    ["Undo", "Annuler", "Deshacer"],
    ["Redo", "Rétablir", "Rehacer"],
    ["Places", "Sections", "Secciones"],
    // web/src/cautions.rs
    ["Care: {titles}", "Prudence : {titles}", "Cuidado: {titles}"],
    // web/src/cuts/grind.rs
    [
        "What grind the trims make",
        "Ce que les parures donnent en haché",
        "Qué molida dan los recortes",
    ],
    ["points", "points", "puntos"],
    [
        "Points of fat: the fat of a trim is an estimate.",
        "Points de gras : le gras d’une parure est une estimation.",
        "Puntos de grasa: la grasa de un recorte es una estimación.",
    ],
    [
        "Fat trim in it",
        "Parures de gras",
        "Recorte de grasa incluido",
    ],
    ["None", "Aucune", "Ninguno"],
    [
        "As the limit allows",
        "Selon la limite",
        "Lo que admita el límite",
    ],
    [
        "Fat trim that goes in is sold as grind.",
        "Les parures de gras qui y entrent se vendent comme viande hachée.",
        "El recorte de grasa que entra se vende como carne molida.",
    ],
    [
        "Grind to classes",
        "Haché par catégorie",
        "Moler por clases",
    ],
    [
        "Percent of all lean trim (40), or a weight (5 kg). Empty: none of it. What is left stays ground beef.",
        "Pourcentage de toutes les parures maigres (40) ou poids (5 kg). Vide : rien. Le reste demeure du bœuf haché.",
        "Porcentaje de todo el recorte magro (40) o un peso (5 kg). Vacío: nada. Lo que queda sigue siendo carne molida.",
    ],
    [
        "Below the limit by",
        "Sous la limite de",
        "Por debajo del límite",
    ],
    // web/src/cuts/mod.rs
    [
        "The cut plan with its weights stands here once the side has a weight and a price.",
        "Le plan de découpe et ses poids s’affichent ici dès que la demi-carcasse a un poids et un prix.",
        "El plan de despiece con sus pesos aparece aquí cuando la media canal tiene peso y precio.",
    ],
    // web/src/cuts/piece.rs
    [
        "no second way",
        "pas de seconde façon",
        "sin segunda manera",
    ],
    [
        "How to break: {part}",
        "Façon de découper : {part}",
        "Cómo despiezar: {part}",
    ],
    [
        "Some of it another way",
        "Une partie d’une autre façon",
        "Una parte de otra manera",
    ],
    [
        "Percent by the second way",
        "Pourcentage de la seconde façon",
        "Porcentaje de la segunda manera",
    ],
    [
        "50 is one of two.",
        "50 : une sur deux.",
        "50 es una de cada dos.",
    ],
    [
        "Own time, second way",
        "Votre temps, seconde façon",
        "Tiempo propio, segunda manera",
    ],
    [
        "Own minutes for this step",
        "Vos minutes pour cette étape",
        "Minutos propios de este paso",
    ],
    [
        "For one side. Empty: the estimate.",
        "Pour une demi-carcasse. Vide : l’estimation.",
        "Para una media canal. Vacío: la estimación.",
    ],
    [
        "Dry-aged, days",
        "Vieillie à sec, jours",
        "Maduración en seco, días",
    ],
    [
        "Empty: not aged. Cold, moving air and approval first.",
        "Vide : non vieillie. D’abord du froid, de l’air en mouvement et l’approbation.",
        "Vacío: sin madurar. Antes, aire frío en movimiento y autorización.",
    ],
    [
        "Own loss in ageing, %",
        "Votre perte au vieillissement, %",
        "Merma propia al madurar, %",
    ],
    [
        "Empty: as published.",
        "Vide : comme publié.",
        "Vacío: la publicada.",
    ],
    [
        "Yield in rendering, %",
        "Rendement à la fonte, %",
        "Rendimiento al derretir, %",
    ],
    [
        "Empty: the estimate. 75 to 85 is usual in a kitchen, from memory.",
        "Vide : l’estimation. 75 à 85 est courant en cuisine, de mémoire.",
        "Vacío: la estimación. En una cocina lo usual es de 75 a 85, de memoria.",
    ],
    // web/src/cuts/whole.rs
    [
        "Cuts, grind and stew",
        "Coupes, haché et ragoût",
        "Cortes, molida y guiso",
    ],
    ["Fat", "Gras", "Grasa"],
    ["Bone", "Os", "Hueso"],
    ["Cutting loss", "Perte de coupe", "Pérdida de corte"],
    [
        "Where the side goes",
        "Où va la demi-carcasse",
        "A dónde va la media canal",
    ],
    // web/src/entry_field.rs
    ["Sample", "Exemple", "Ejemplo"],
    [
        "Use the {stand_in}",
        "Reprendre : {stand_in}",
        "Usar {stand_in}",
    ],
    // web/src/foot.rs
    [
        "How it is worked out",
        "Comment c’est calculé",
        "Cómo se calcula",
    ],
    ["Language", "Langue", "Idioma"],
    ["Currency", "Monnaie", "Moneda"],
    [
        "The currency of all amounts. None is ever converted.",
        "La monnaie de tous les montants. Aucun n’est jamais converti.",
        "La moneda de todos los importes. Nunca se convierte ninguno.",
    ],
    // web/src/keeping.rs
    [
        "This browser does not let the page store anything. Everything works, but nothing is kept when the page closes.",
        "Ce navigateur ne permet pas à la page de stocker quoi que ce soit. Tout fonctionne, mais rien n’est gardé quand la page se ferme.",
        "Este navegador no permite que la página guarde nada. Todo funciona, pero nada se conserva al cerrar la página.",
    ],
    [
        "The browser's storage is full. Everything works, but changes from now on are not kept when the page closes.",
        "La mémoire du navigateur est pleine. Tout fonctionne, mais les changements à partir de maintenant ne sont pas gardés quand la page se ferme.",
        "El almacenamiento del navegador está lleno. Todo funciona, pero los cambios desde ahora no se conservan al cerrar la página.",
    ],
    [
        "What was kept from last time could not be read. It has been set aside, and you start with a clean sheet.",
        "Ce qui avait été gardé la dernière fois n’a pas pu être lu. C’est mis de côté, et vous partez d’une feuille vierge.",
        "No se pudo leer lo conservado de la última vez. Se ha puesto aparte y usted empieza con una hoja limpia.",
    ],
    // web/src/offline.rs
    [
        "Works offline now.",
        "Fonctionne hors ligne.",
        "Ya funciona sin conexión.",
    ],
    [
        "A new version is ready.",
        "Une nouvelle version est prête.",
        "Hay una versión nueva lista.",
    ],
    ["Later", "Plus tard", "Más tarde"],
    ["Reload", "Recharger", "Recargar"],
    // web/src/opened.rs
    [
        "Reading the link…",
        "Lecture du lien…",
        "Leyendo el enlace…",
    ],
    [
        "A plan from a link",
        "Un plan reçu par lien",
        "Un plan de un enlace",
    ],
    ["Leave it", "Laisser", "Dejarlo así"],
    // web/src/prices/board_day.rs
    [
        "Day of the price board",
        "Jour du tableau de prix",
        "Día de la lista de precios",
    ],
    [
        "The price board is of {date}, which is still to come: check its day.",
        "Le tableau de prix est daté du {date}, qui est encore à venir : vérifiez le jour.",
        "La lista de precios es del {date}, que aún no ha llegado: revise su día.",
    ],
    [
        "The price board is {age} days old, more than {days}: look it over.",
        "Le tableau de prix a {age} jours, plus de {days} : revoyez-le.",
        "La lista de precios tiene {age} días, más de {days}: revísela.",
    ],
    ["Day of the board", "Jour du tableau", "Día de la lista"],
    [
        "When these prices were set.",
        "Quand ces prix ont été fixés.",
        "Cuándo se fijaron estos precios.",
    ],
    ["Old after", "Vieux après", "Antigua tras"],
    ["days", "jours", "días"],
    [
        "Says so when it is older.",
        "Le signale quand il est plus vieux.",
        "Avisa cuando es más antigua.",
    ],
    // web/src/prices/board_file.rs
    [
        "Price board and cost sheet as files",
        "Tableau de prix et feuille de coûts en fichiers",
        "Lista de precios y hoja de costos en archivos",
    ],
    [
        "CSV, as a spreadsheet opens it. Nothing changes before you have seen what would.",
        "En CSV, comme un tableur l’ouvre. Rien ne change avant que vous ayez vu ce qui changerait.",
        "CSV, como lo abre una hoja de cálculo. Nada cambia antes de que usted vea qué cambiaría.",
    ],
    [
        "Save the board as a file",
        "Enregistrer le tableau (fichier)",
        "Guardar la lista en un archivo",
    ],
    [
        "Save the cost sheet as a file",
        "Enregistrer la feuille de coûts (fichier)",
        "Guardar la hoja de costos en un archivo",
    ],
    [
        "Take in a board file",
        "Importer un tableau de prix",
        "Cargar un archivo de lista",
    ],
    // web/src/prices/detail.rs
    [
        "Hold its suggested price",
        "Tenir son prix suggéré",
        "Mantener su precio sugerido",
    ],
    ["At", "Égal à", "Fijo en"],
    [
        "My price, as it is.",
        "Mon prix, tel quel.",
        "Mi precio, tal cual.",
    ],
    ["Not below", "Pas moins de", "No menos de"],
    ["Not above", "Pas plus de", "No más de"],
    [
        "The other cuts make up for it, so that the side still meets the target.",
        "Les autres coupes compensent, si bien que la demi-carcasse atteint quand même la cible.",
        "Los demás cortes lo compensan, para que la media canal siga alcanzando el objetivo.",
    ],
    [
        "Unsold of this cut, %",
        "Invendu de cette coupe, %",
        "No vendido de este corte, %",
    ],
    [
        "Empty: as for all cuts.",
        "Vide : comme pour toutes les coupes.",
        "Vacío: como en todos los cortes.",
    ],
    ["Marked down, %", "Vendu au rabais, %", "Rebajado, %"],
    // web/src/prices/mod.rs
    ["Cut", "Coupe", "Corte"],
    ["Weight", "Poids", "Peso"],
    ["Cost", "Coût", "Costo"],
    ["Board price", "Prix affiché", "Precio de lista"],
    ["Margin", "Marge", "Margen"],
    ["Suggested", "Suggéré", "Sugerido"],
    [
        "The cost sheet stands here once the side has a weight and a price.",
        "La feuille de coûts s’affiche ici dès que la demi-carcasse a un poids et un prix.",
        "La hoja de costos aparece aquí cuando la media canal tiene peso y precio.",
    ],
    [
        "{samples} of {rows} prices are invented samples, set in slanted type. Type over them with your own.",
        "{samples} prix sur {rows} sont des exemples inventés, en caractères penchés. Remplacez-les par les vôtres.",
        "Precios de ejemplo, inventados y en letra inclinada: {samples} de {rows}. Escriba los suyos encima.",
    ],
    [
        " Last good figures.",
        " Derniers chiffres valables.",
        " Últimas cifras válidas.",
    ],
    [
        "Cost sheet: {currency} {per}",
        "Feuille de coûts : {currency} {per}",
        "Hoja de costos: {currency} {per}",
    ],
    [
        "Suggested: the price at which the whole side makes the target margin, every cut keeping its place on the board, rounded up. By-products count against the cost of the cuts.",
        "Suggéré : le prix auquel la demi-carcasse entière atteint la marge cible, chaque coupe gardant son rang au tableau, arrondi vers le haut. Les sous-produits réduisent le coût des coupes.",
        "Sugerido: el precio con el que toda la media canal alcanza el margen objetivo; cada corte conserva su lugar en la lista, y se redondea hacia arriba. Los subproductos se descuentan del costo de los cortes.",
    ],
    [
        "Cost by each method",
        "Coût selon chaque méthode",
        "Costo según cada método",
    ],
    [
        "Cost divided by",
        "Coût réparti selon",
        "Costo repartido por",
    ],
    // web/src/prices/rounding.rs
    ["Rounded", "Arrondi", "Redondeo"],
    ["Up", "Plus haut", "Hacia arriba"],
    ["To nearest", "Au plus près", "Al más cercano"],
    [
        "The side meets the target either way.",
        "La demi-carcasse atteint la cible dans les deux cas.",
        "De ambas formas la media canal alcanza el objetivo.",
    ],
    ["Priced per", "Prix par", "Precio por"],
    [
        "As on the card.",
        "Comme sur l’étiquette.",
        "Como en la etiqueta.",
    ],
    [
        "Cents, such as 99 or 49, 99. Empty: any.",
        "Cents, par exemple 99 ou 49, 99. Vide : au choix.",
        "Centavos, como 99 o 49, 99. Vacío: cualquiera.",
    ],
    ["Price endings", "Fins de prix", "Finales de precio"],
    // web/src/prices/row.rs
    ["by-product", "sous-produit", "subproducto"],
    [", sample", ", exemple", ", muestra"],
    [
        "Board price of {cut} in {currency} {per}{sample}",
        "Prix affiché de la coupe {cut} en {currency} {per}{sample}",
        "Precio de lista de {cut} en {currency} {per}{sample}",
    ],
    ["use sample", "prendre l’exemple", "usar ejemplo"],
    ["earns {earned}", "rapporte {earned}", "gana {earned}"],
    // web/src/prices/suggestion.rs
    ["a cut", "une coupe", "un corte"],
    [
        "By-products alone pay for the side: the target asks nothing of the cuts, so {zero} is suggested where you hold no price.",
        "Les sous-produits paient à eux seuls la demi-carcasse : la cible ne demande rien aux coupes, et {zero} est donc suggéré là où vous ne tenez aucun prix.",
        "Los subproductos por sí solos pagan la media canal: el objetivo no pide nada a los cortes, por lo que se sugiere {zero} donde usted no fija un precio.",
    ],
    [
        "At the highest prices allowed, sales stay {short} below the target. Change one of these:",
        "Aux prix les plus élevés permis, les ventes restent {short} sous la cible. Changez l’un de ceux-ci :",
        "Con los precios más altos permitidos, las ventas quedan {short} por debajo del objetivo. Cambie uno de estos:",
    ],
    [
        "has a weight or price below zero",
        "un poids ou un prix sous zéro",
        "tiene un peso o un precio bajo cero",
    ],
    [
        "has a lowest price above its highest: change one of them",
        "un prix minimal au-dessus du prix maximal; changez l’un des deux",
        "tiene un precio mínimo mayor que el máximo: cambie uno de los dos",
    ],
    [
        "has no price with these endings between its lowest and its highest: move one of them or allow another ending",
        "aucun prix avec ces fins entre le minimum et le maximum; déplacez l’un des deux ou permettez une autre fin",
        "no tiene ningún precio con estos finales entre su mínimo y su máximo: mueva uno de los dos o permita otro final",
    ],
    [
        "The suggested prices bring what the target asks, to the cent.",
        "Les prix suggérés rapportent ce que la cible demande, au cent près.",
        "Los precios sugeridos dan lo que pide el objetivo, al centavo.",
    ],
    [
        ", the least there is",
        ", le moins possible",
        ", lo mínimo posible",
    ],
    [
        "Rounding brings {excess} more than the target asks{least}.",
        "L’arrondi rapporte {excess} de plus que ce que la cible demande{least}.",
        "El redondeo da {excess} más de lo que pide el objetivo{least}.",
    ],
    [
        " with {surplus} to spare",
        " avec {surplus} de surplus",
        " con {surplus} de sobra",
    ],
    [
        "The prices you hold alone meet the target{spare}: it asks nothing of any other cut, so {zero} is suggested there.",
        "Les prix que vous tenez atteignent à eux seuls la cible{spare} : elle ne demande rien aux autres coupes, et {zero} y est donc suggéré.",
        "Los precios que usted fija alcanzan por sí solos el objetivo{spare}: no pide nada a los demás cortes, por lo que ahí se sugiere {zero}.",
    ],
    [
        "held at {price}",
        "prix tenu à {price}",
        "con precio fijo de {price}",
    ],
    [
        "not above {price}",
        "pas plus de {price}",
        "con precio máximo de {price}",
    ],
    [
        "without a price on the board",
        "sans prix au tableau",
        "sin precio en la lista",
    ],
    [
        ": alone it would need {price}",
        " : à elle seule, cette coupe aurait besoin de {price}",
        ": como único cambio haría falta {price}",
    ],
    [
        "No prices can be suggested: {cut} {what}.",
        "Aucun prix ne peut être suggéré. {cut} : {what}.",
        "No se pueden sugerir precios: {cut} {what}.",
    ],
    // web/src/prices/totals.rs
    [
        "{margin} (markup {markup})",
        "{margin} (majoration {markup})",
        "{margin} (recargo {markup})",
    ],
    [
        "The side as a whole, {time} of work, {unsold} unsold",
        "La demi-carcasse entière, {time} de travail, {unsold} d’invendu",
        "La media canal completa, {time} de trabajo, {unsold} no vendido",
    ],
    [
        "Chilled side",
        "Demi-carcasse refroidie",
        "Media canal fría",
    ],
    ["Saleable", "Vendable", "Vendible"],
    [
        "Work at the bench",
        "Travail à la table",
        "Trabajo en la mesa",
    ],
    [
        "Work at the saw",
        "Travail à la scie",
        "Trabajo en la sierra",
    ],
    ["Side", "Demi-bœuf", "Media canal"],
    ["Charges", "Frais", "Cargos"],
    ["Labour", "Main-d’œuvre", "Mano de obra"],
    ["Packaging", "Emballage", "Empaque"],
    ["Spend", "Dépense", "Gasto"],
    [
        "By-products, credited",
        "Sous-produits, crédités",
        "Subproductos, a favor",
    ],
    [
        "Cuts must carry",
        "À porter par les coupes",
        "Los cortes deben cubrir",
    ],
    ["Sales of cuts", "Ventes des coupes", "Ventas de cortes"],
    ["Left over", "Reste", "Queda"],
    [
        "Margin on sales",
        "Marge sur les ventes",
        "Margen sobre ventas",
    ],
    [
        "Meat margin, before labour and packaging",
        "Marge sur viande, avant main-d’œuvre et emballage",
        "Margen de carne, antes de mano de obra y empaque",
    ],
    // web/src/reckoner.rs
    [
        "This browser could not start the part of the app that works this out. Reload the page; if that does not help, a newer browser may.",
        "Ce navigateur n’a pas pu lancer la partie de l’application qui fait ce calcul. Rechargez la page; si cela n’aide pas, un navigateur plus récent le pourra peut-être.",
        "Este navegador no pudo iniciar la parte de la aplicación que calcula esto. Recargue la página; si no ayuda, quizá sirva un navegador más nuevo.",
    ],
    // web/src/saved/file.rs
    [
        "Taken in: {taken}.",
        "Importés : {taken}.",
        "Cargados: {taken}.",
    ],
    ["Take them in", "Les importer", "Cargarlos"],
    [
        "Keep in a file",
        "Garder dans un fichier",
        "Conservar en un archivo",
    ],
    [
        "Save all saved plans as a file",
        "Enregistrer tous les plans gardés (fichier)",
        "Guardar todos los planes en un archivo",
    ],
    [
        "Take in a file of saved plans",
        "Importer un fichier de plans gardés",
        "Cargar un archivo de planes guardados",
    ],
    // web/src/saved/line.rs
    ["Open: {plan}", "Ouvrir : {plan}", "Abrir: {plan}"],
    ["Open", "Ouvrir", "Abrir"],
    ["Rename", "Renommer", "Renombrar"],
    ["Duplicate", "Dupliquer", "Duplicar"],
    ["Delete", "Supprimer", "Eliminar"],
    [
        "New name of {plan}",
        "Nouveau nom pour {plan}",
        "Nuevo nombre de {plan}",
    ],
    ["grain-fed", "nourri au grain", "a grano"],
    ["grass-fed", "nourri à l’herbe", "a pasto"],
    [
        "{percent} % to grass-fed",
        "{percent} % vers l’herbe",
        "{percent} % hacia pasto",
    ],
    [
        "{weight} at {price}",
        "{weight} à {price}",
        "{weight} a {price}",
    ],
    // web/src/saved/mod.rs
    [
        "This browser does not let the page store anything, so nothing can be saved by name. A plan can be saved as a file or handed on as a link.",
        "Ce navigateur ne permet pas à la page de stocker quoi que ce soit : rien ne peut donc être gardé sous un nom. Un plan peut être enregistré dans un fichier ou transmis par un lien.",
        "Este navegador no permite que la página guarde nada, así que nada puede guardarse por nombre. Un plan puede guardarse en un archivo o pasarse como enlace.",
    ],
    [
        "“{plan}” is deleted.",
        "Le plan « {plan} » est supprimé.",
        "Se eliminó «{plan}».",
    ],
    [
        "It is called “{renamed}” now.",
        "Le nom est maintenant « {renamed} ».",
        "Ahora se llama «{renamed}».",
    ],
    [
        "Nothing is saved yet. What is typed is kept all the same until you start a new side.",
        "Rien n’est encore gardé sous un nom. Ce qui est entré est quand même conservé jusqu’à ce que vous commenciez une nouvelle demi-carcasse.",
        "Aún no hay nada guardado. Lo escrito se conserva de todos modos hasta que usted empiece una nueva media canal.",
    ],
    [
        "No name has these words.",
        "Aucun nom ne contient ces mots.",
        "Ningún nombre tiene estas palabras.",
    ],
    [
        "Side of {now}",
        "Demi-carcasse du {now}",
        "Media canal del {now}",
    ],
    [
        "Kept in this browser and nowhere else. A browser may clear it when it runs out of room, when you clear its data, or, as some do, when the page has not been opened for a week or more. What must last belongs in a file.",
        "Gardé dans ce navigateur et nulle part ailleurs. Un navigateur peut l’effacer quand il manque de place, quand vous effacez ses données ou, pour certains, quand la page n’a pas été ouverte depuis une semaine ou plus. Ce qui doit durer va dans un fichier.",
        "Se conserva en este navegador y en ningún otro lugar. Un navegador puede borrarlo cuando le falta espacio, cuando usted borra sus datos o, en algunos casos, cuando la página no se ha abierto en una semana o más. Lo que deba durar va en un archivo.",
    ],
    [
        "“{name}” is replaced.",
        "Le plan « {name} » est remplacé.",
        "Se reemplazó «{name}».",
    ],
    [
        "“{plan}” is saved.",
        "Le plan « {plan} » est enregistré.",
        "Se guardó «{plan}».",
    ],
    [
        "Save this side as",
        "Garder cette demi-carcasse sous",
        "Guardar esta media canal como",
    ],
    [
        "Replace “{plan}”",
        "Remplacer « {plan} »",
        "Reemplazar «{plan}»",
    ],
    ["Save", "Enregistrer", "Guardar"],
    [
        "The deal, the plan and the shop as they stand now.",
        "L’offre, le plan et la boucherie tels qu’ils sont maintenant.",
        "La oferta, el plan y la carnicería como están ahora.",
    ],
    ["Find", "Chercher", "Buscar"],
    ["Last changed", "Dernier changement", "Último cambio"],
    ["Name", "Nom", "Nombre"],
    ["In order of", "Trier par", "Ordenar por"],
    // web/src/saved/news.rs
    [
        "Another tab has changed this plan meanwhile. Both are kept.",
        "Un autre onglet a changé ce plan entre-temps. Les deux sont gardés.",
        "Entretanto, otra pestaña cambió este plan. Se conservan ambos.",
    ],
    [
        "The browser's storage took nothing more: this was not saved, and what was there is there still. Delete a plan that is no longer needed, or save this one as a file.",
        "La mémoire du navigateur n’a plus rien accepté : ceci n’a pas été enregistré, et ce qui y était s’y trouve toujours. Supprimez un plan devenu inutile, ou enregistrez celui-ci dans un fichier.",
        "El almacenamiento del navegador no admitió más: esto no se guardó, y lo que había sigue ahí. Elimine un plan que ya no necesite o guarde este en un archivo.",
    ],
    [
        "“{name}” is open now. ",
        "Le plan « {name} » est ouvert. ",
        "Ahora está abierto «{name}». ",
    ],
    [
        "“{before}” is back as it was.",
        "Le plan « {before} » est revenu comme avant.",
        "«{before}» está otra vez como antes.",
    ],
    [
        "Saved by a newer version of the app and not readable by this one: {newer}. Reload to get the newer one.",
        "Enregistrés par une version plus récente de l’application et illisibles pour celle-ci : {newer}. Rechargez pour obtenir la plus récente.",
        "Guardados por una versión más nueva de la aplicación e ilegibles para esta: {newer}. Recargue para obtener la más nueva.",
    ],
    [
        "Damaged and not readable: {damaged}.",
        "Endommagés et illisibles : {damaged}.",
        "Dañados e ilegibles: {damaged}.",
    ],
    [
        "Nothing of it is deleted.",
        "Rien n’en est supprimé.",
        "Nada de ello se elimina.",
    ],
    // web/src/saved/print.rs
    ["Title", "Titre", "Título"],
    ["Lot or tag", "Lot ou étiquette", "Lote o etiqueta"],
    [
        "Claim on price cards",
        "Allégation sur les étiquettes",
        "Declaración en las etiquetas",
    ],
    ["Print", "Imprimer", "Imprimir"],
    [
        "Such as grass-fed, and only what is true and can be shown. Empty: no claim.",
        "Par exemple « nourri à l’herbe », et seulement ce qui est vrai et peut être prouvé. Vide : aucune allégation.",
        "Por ejemplo, «a pasto», y solo lo que es cierto y se puede demostrar. Vacío: ninguna declaración.",
    ],
    [
        "On A4 or Letter. The side needs a weight and a price first; price cards say which prices are samples.",
        "Sur A4 ou Lettre. La demi-carcasse doit d’abord avoir un poids et un prix; les étiquettes de prix indiquent quels prix sont des exemples.",
        "En A4 o carta. La media canal necesita antes peso y precio; las etiquetas dicen qué precios son de ejemplo.",
    ],
    // web/src/saved/share.rs
    ["The link", "Le lien", "El enlace"],
    ["Copy", "Copier", "Copiar"],
    ["Share", "Partager", "Compartir"],
    [
        "Hand it on as a link",
        "Transmettre par un lien",
        "Pasar como enlace",
    ],
    ["What goes in", "Ce qui y entre", "Qué incluye"],
    [
        "All of it stands in the link itself. Nothing is sent anywhere, and whoever has the link can read it.",
        "Tout tient dans le lien même. Rien n’est envoyé nulle part, et quiconque a le lien peut le lire.",
        "Todo va en el propio enlace. No se envía nada a ninguna parte, y quien tenga el enlace puede leerlo.",
    ],
    ["Copied.", "Copié.", "Copiado."],
    [
        "The browser does not let the page copy. The link is marked: copy it.",
        "Le navigateur ne permet pas à la page de copier. Le lien est sélectionné : copiez-le.",
        "El navegador no permite que la página copie. El enlace está marcado: cópielo.",
    ],
    // web/src/side/deal.rs
    ["Weight unit", "Unité de poids", "Unidad de peso"],
    ["Price unit", "Unité de prix", "Unidad de precio"],
    [
        "The weight you pay for.",
        "Le poids que vous payez.",
        "El peso que usted paga.",
    ],
    [
        "What the supplier asks.",
        "Ce que le fournisseur demande.",
        "Lo que pide el proveedor.",
    ],
    ["Estimate", "Estimation", "Estimación"],
    [
        "For the whole side. Time your own: the plan's estimate is rough.",
        "Pour la demi-carcasse entière. Chronométrez le vôtre : l’estimation du plan est grossière.",
        "Para toda la media canal. Mida su tiempo: la estimación del plan es aproximada.",
    ],
    [
        "Wages with all on-costs.",
        "Salaire avec toutes les charges sociales.",
        "Salario con todas las cargas.",
    ],
    [
        "Share of sales left after side, charges, labour and packaging.",
        "Part des ventes qui reste après la demi-carcasse, les frais, la main-d’œuvre et l’emballage.",
        "Parte de las ventas que queda tras media canal, cargos, mano de obra y empaque.",
    ],
    [
        "An invented side, to try things out: type over it with your own.",
        "Une demi-carcasse inventée, pour essayer : remplacez-la par la vôtre.",
        "Una media canal inventada, para probar: escriba la suya encima.",
    ],
    ["Side weight", "Poids demi-carcasse", "Peso de media canal"],
    ["Side price", "Prix demi-carcasse", "Precio de media canal"],
    ["Labour minutes", "Minutes de travail", "Minutos de trabajo"],
    ["Labour rate", "Taux horaire", "Costo por hora"],
    ["Target margin", "Marge cible", "Margen objetivo"],
    ["Not known", "Inconnu", "No se sabe"],
    ["Under 30 months", "Moins de 30 mois", "Menos de 30 meses"],
    ["30 months and over", "30 mois et plus", "30 meses o más"],
    ["Age of the animal", "Âge de l’animal", "Edad del animal"],
    [
        "Decides what may be done with the back bone.",
        "Décide de ce qui peut être fait de la colonne vertébrale.",
        "Decide qué puede hacerse con el espinazo.",
    ],
    [
        "How the side is broken; change any part under Cuts.",
        "Comment la demi-carcasse est découpée; changez toute pièce sous Coupes.",
        "Cómo se despieza; cambie cualquier pieza en Cortes.",
    ],
    [
        "1 part is cut another way than this plan; see Cuts.",
        "1 pièce est découpée autrement que dans ce plan; voir Coupes.",
        "1 pieza se corta de manera distinta a este plan; vea Cortes.",
    ],
    [
        "{more} parts are cut another way than this plan; see Cuts.",
        "{more} pièces sont découpées autrement que dans ce plan; voir Coupes.",
        "{more} piezas se cortan de manera distinta a este plan; vea Cortes.",
    ],
    ["Cut plan", "Plan de découpe", "Plan de despiece"],
    // web/src/side/mod.rs
    [
        "Try an invented side",
        "Essayer un exemple inventé",
        "Probar un ejemplo inventado",
    ],
    ["New side", "Nouveau demi-bœuf", "Nueva media canal"],
    [
        "Yield grade {grade}{limited}: {saleable} saleable expected, {saleable_low} to {saleable_high} by other published slopes ({mark}). The plan gives {planned}.",
        "Catégorie de rendement {grade}{limited} : {saleable} de vendable attendu, {saleable_low} à {saleable_high} selon d’autres pentes publiées ({mark}). Le plan donne {planned}.",
        "Grado de rendimiento {grade}{limited}: se espera {saleable} vendible, de {saleable_low} a {saleable_high} según otras pendientes publicadas ({mark}). El plan da {planned}.",
    ],
    // web/src/side/more.rs
    ["in|inches", "po", "pulg"],
    ["in²", "po²", "pulg²"],
    ["Sides", "Demi-carcasses", "Medias canales"],
    [
        "Bought together; the weight is for all of them.",
        "Achetées ensemble; le poids est pour toutes.",
        "Compradas juntas; el peso es el de todas.",
    ],
    ["Days hung", "Jours suspendus", "Días en cámara"],
    [
        "In the cooler: gives the shrink, unless you type your own.",
        "En chambre froide : donne la freinte, sauf si vous entrez la vôtre.",
        "Colgada en frío: da la merma, si usted no escribe la suya.",
    ],
    ["Cooler shrink", "Freinte au froid", "Merma en cámara"],
    [
        "1 to 2 % over the first night, then a quarter or a third of a percent a day.",
        "1 à 2 % la première nuit, puis un quart ou un tiers de pour cent par jour.",
        "De 1 a 2 % la primera noche; luego, un cuarto o un tercio de 1 % al día.",
    ],
    [
        "Dressing share",
        "Rendement carcasse",
        "Rendimiento en canal",
    ],
    [
        "Carcass of live weight: 60 to 63 grain-fed, 55 to 58 grass-fed.",
        "Carcasse sur poids vif : 60 à 63 au grain, 55 à 58 à l’herbe.",
        "Canal sobre peso vivo: 60 a 63 a grano, 55 a 58 a pasto.",
    ],
    ["Hot carcass", "Carcasse chaude", "Canal caliente"],
    [
        "Both sides together.",
        "Les deux demi-carcasses ensemble.",
        "Las dos mitades juntas.",
    ],
    ["Back fat", "Gras dorsal", "Grasa dorsal"],
    [
        "Over the ribeye.",
        "Sur le faux-filet.",
        "Sobre el ojo de bife.",
    ],
    [
        "Ribeye area",
        "Surface du faux-filet",
        "Área de ojo de bife",
    ],
    [
        "Between the ribs, where the grader measures it.",
        "Entre les côtes, là où le classificateur la mesure.",
        "Entre las costillas, donde la mide el clasificador.",
    ],
    ["Kidney fat", "Gras de rognon", "Grasa de riñonada"],
    [
        "With pelvic and heart fat.",
        "Avec le gras du bassin et du cœur.",
        "Con la pélvica y la del corazón.",
    ],
    ["Kill", "Abattage", "Sacrificio"],
    [
        "With inspection.",
        "Avec l’inspection.",
        "Con la inspección.",
    ],
    ["Haul", "Transport", "Flete"],
    ["To your door.", "Jusqu’à votre porte.", "Hasta su puerta."],
    ["Cut and wrap", "Coupe et emballage", "Corte y empaque"],
    [
        "If the plant does it.",
        "Si l’abattoir s’en charge.",
        "Si lo hace la planta.",
    ],
    ["Rebate", "Ristourne", "Reembolso"],
    [
        "What you get back.",
        "Ce qui vous revient.",
        "Lo que le devuelven.",
    ],
    ["On-costs", "Charges sociales", "Cargas laborales"],
    [
        "On top of the wage, where the rate leaves them out.",
        "En plus du salaire, si le taux ne les compte pas.",
        "Además del salario, si el costo por hora no las incluye.",
    ],
    ["Overhead", "Frais généraux", "Gastos generales"],
    [
        "Rent and power for each hour of work.",
        "Loyer et électricité par heure de travail.",
        "Alquiler y energía por cada hora de trabajo.",
    ],
    ["One pack", "Un paquet", "Un paquete"],
    [
        "Bag, tray, pad, label.",
        "Sac, barquette, tampon, étiquette.",
        "Bolsa, bandeja, almohadilla, etiqueta.",
    ],
    ["A pack holds", "Un paquet contient", "Un paquete contiene"],
    [
        "Of cuts, on average.",
        "De coupes, en moyenne.",
        "De cortes, en promedio.",
    ],
    [
        "For each weight of cuts.",
        "Par unité de poids des coupes.",
        "Por unidad de peso de cortes.",
    ],
    ["Purge", "Exsudat", "Exudado"],
    [
        "Drip in the pack; 1 to 2 % is usual in vacuum.",
        "Jus dans le paquet; 1 à 2 % est courant sous vide.",
        "Goteo en el paquete; al vacío lo usual es 1 a 2 %.",
    ],
    ["Unsold", "Invendu", "No vendido"],
    [
        "Never sold. Set single cuts under Prices.",
        "Jamais vendu. Réglez chaque coupe sous Prix.",
        "Nunca se vende. Ajuste cortes sueltos en Precios.",
    ],
    ["Marked down", "Vendu au rabais", "Rebajado"],
    ["Sold for less.", "Vendu moins cher.", "Vendido por menos."],
    ["Mark-down", "Rabais", "Rebaja"],
    [
        "Taken off its price.",
        "Retiré de son prix.",
        "Se quita de su precio.",
    ],
    [
        "Sides, weight basis, charges, labour, losses",
        "Nombre, base du poids, frais, main-d’œuvre, pertes",
        "Medias canales, base de peso, cargos, mano de obra, pérdidas",
    ],
    ["Graded carcass", "Carcasse classée", "Canal clasificada"],
    [
        "As the grader measured it: all four, or none.",
        "Telle que mesurée par le classificateur : les quatre, ou aucune.",
        "Como la midió el clasificador: los cuatro datos, o ninguno.",
    ],
    [
        "For the side (120) or by weight (0.90/kg), as you are billed.",
        "Pour la demi-carcasse (120) ou au poids (0,90/kg), comme on vous facture.",
        "Por media canal (120) o por peso (0.90/kg), como se lo facturan.",
    ],
    [
        "Labour and packs",
        "Main-d’œuvre et paquets",
        "Mano de obra y paquetes",
    ],
    [
        "Between block and till",
        "Du billot à la caisse",
        "Entre el tajo y la caja",
    ],
    ["Cold: chilled", "Froid : refroidi", "Fría: refrigerada"],
    [
        "Hot: on the rail",
        "Chaud : sur le rail",
        "Caliente: en el riel",
    ],
    [
        "Live: half an animal",
        "Vif : un demi-animal",
        "En pie: medio animal",
    ],
    ["Weight basis", "Base du poids", "Base de peso"],
    [
        "What you pay for.",
        "Ce que vous payez.",
        "Por lo que usted paga.",
    ],
    ["Yields by", "Rendements selon", "Rendimientos según"],
    [
        "The stock set above",
        "L’alimentation ci-dessus",
        "La alimentación de arriba",
    ],
    [
        "The graded carcass",
        "La carcasse classée",
        "La canal clasificada",
    ],
    [
        "Which of the two the figures follow.",
        "Laquelle des deux les chiffres suivent.",
        "Cuál de las dos siguen las cifras.",
    ],
    ["Packaging by", "Emballage par", "Empaque según"],
    ["The pack", "Paquet", "Paquete"],
    // web/src/side/save.rs
    [
        "Save plan as a file",
        "Enregistrer le plan (fichier)",
        "Guardar plan en un archivo",
    ],
    // web/src/side/stock.rs
    ["Grain-fed", "Nourri au grain", "A grano"],
    ["Grass-fed", "Nourri à l’herbe", "A pasto"],
    [
        "{percent} % of the way to grass-fed",
        "{percent} % du chemin vers l’herbe",
        "{percent} % del camino hacia pasto",
    ],
    [
        " A claim must be true and shown to be: see labels and claims under Prices.",
        " Une allégation doit être vraie et démontrée : voir étiquettes et allégations sous Prix.",
        " Lo que se declara debe ser cierto y demostrarse: vea etiquetas y declaraciones en Precios.",
    ],
    ["Stock", "Alimentation", "Alimentación"],
    ["Grain", "Grain", "Grano"],
    ["Grass", "Herbe", "Pasto"],
    [
        "Grass-fed sides carry less fat, so more of the side sells, from smaller cuts. A model between two published averages.",
        "Les demi-carcasses nourries à l’herbe portent moins de gras : une plus grande part se vend, en coupes plus petites. Un modèle entre deux moyennes publiées.",
        "Las medias canales a pasto llevan menos grasa, así que se vende más de ellas, en cortes más pequeños. Un modelo entre dos promedios publicados.",
    ],
    // web/src/state.rs
    ["Side|the place", "Demi-bœuf", "Media res"],
    ["Cuts", "Coupes", "Cortes"],
    ["Prices", "Prix", "Precios"],
    ["What if", "Et si", "¿Y si…?"],
    ["Saved", "Gardés", "Guardado"],
    // web/src/verdict_strip.rs
    [
        "Type the side's weight and price.",
        "Entrez le poids et le prix de la demi-carcasse.",
        "Escriba el peso y el precio de la media canal.",
    ],
    [
        "No answer yet",
        "Pas encore de réponse",
        "Aún sin respuesta",
    ],
    ["Pays", "Rentable", "Rinde"],
    ["Thin", "Juste", "Justo"],
    ["Falls short", "Déficitaire", "No alcanza"],
    [
        "Last good figure: a field cannot be read.",
        "Dernier chiffre valable : un champ est illisible.",
        "Última cifra válida: un campo no se puede leer.",
    ],
    [
        "Last good figure. {trouble}",
        "Dernier chiffre valable. {trouble}",
        "Última cifra válida. {trouble}",
    ],
    ["Walk-away price", "Prix plafond", "Precio tope"],
    ["Verdict", "Verdict", "Veredicto"],
    ["none|no price pays", "aucun", "ninguno"],
    [
        "No price makes {target} with this plan and board.",
        "Aucun prix n’atteint {target} avec ce plan et ce tableau.",
        "Ningún precio logra {target} con este plan y esta lista.",
    ],
    [
        "Makes the target of {target}, with {room} to spare.",
        "Atteint la cible de {target}, avec {room} de jeu.",
        "Alcanza el objetivo de {target}, con {room} de sobra.",
    ],
    [
        "Covers its costs but not the target of {target}. Offer {offer} or less.",
        "Couvre ses coûts, mais pas la cible de {target}. Offrez {offer} ou moins.",
        "Cubre sus costos, pero no el objetivo de {target}. Ofrezca {offer} o menos.",
    ],
    [
        "Costs {profit} more than it brings. Offer {offer} or less.",
        "Coûte {profit} de plus que ce qu’elle rapporte. Offrez {offer} ou moins.",
        "Cuesta {profit} más de lo que da. Ofrezca {offer} o menos.",
    ],
    // web/src/what_if.rs
    [
        "Type the side's weight and price first.",
        "Entrez d’abord le poids et le prix de la demi-carcasse.",
        "Escriba primero el peso y el precio de la media canal.",
    ],
    [
        "Taken over into the plan. ",
        "Repris dans le plan. ",
        "Pasado al plan. ",
    ],
    ["Working it out…", "Calcul en cours…", "Calculando…"],
];
