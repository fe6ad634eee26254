//! What is wrong with a file or a kept record, where, and what would be right.

use super::Row;

/// The rows, by where they are said.
pub(super) const ROWS: &[Row] = &[
    [
        "The file has {bytes} bytes; a plan has {most} at most.",
        "Le fichier a {bytes} octets; un plan en a {most} au plus.",
        "El archivo tiene {bytes} bytes; un plan tiene {most} como máximo.",
    ],
    [
        "The file cannot be read as a plan. {fault}",
        "Le fichier ne peut être lu comme un plan. {fault}",
        "El archivo no se puede leer como un plan. {fault}",
    ],
    [
        "The file is not a plan of this tool: “format” must be “{format}”.",
        "Le fichier n’est pas un plan de cet outil : « format » doit être « {format} ».",
        "El archivo no es un plan de esta herramienta: «format» debe ser «{format}».",
    ],
    [
        "The plan has version {version}, this tool reads up to {newest}: open it with a newer Sideworth.",
        "Le plan est de la version {version}, cet outil lit jusqu’à {newest} : ouvrez-le avec un Sideworth plus récent.",
        "El plan es de la versión {version}, esta herramienta lee hasta la {newest}: ábralo con un Sideworth más nuevo.",
    ],
    ["{place}: {fault}", "{place} : {fault}", "{place}: {fault}"],
    [
        "Line {line}, column {column}: this breaks the rules of JSON.",
        "Ligne {line}, colonne {column} : ceci enfreint les règles de JSON.",
        "Línea {line}, columna {column}: esto incumple las reglas de JSON.",
    ],
    [
        "Line {line}, column {column}: the file is cut off here.",
        "Ligne {line}, colonne {column} : le fichier est coupé ici.",
        "Línea {line}, columna {column}: el archivo se corta aquí.",
    ],
    [
        "Line {line}, column {column}: something is missing here or does not belong here (“{says}”).",
        "Ligne {line}, colonne {column} : il manque quelque chose ici, ou quelque chose n’y a pas sa place (« {says} »).",
        "Línea {line}, columna {column}: aquí falta algo o hay algo que no corresponde («{says}»).",
    ],
    [
        "it must be a number from 1 to {newest}",
        "doit être un nombre de 1 à {newest}",
        "debe ser un número de 1 a {newest}",
    ],
    [
        "it comes with version {version}",
        "n’existe qu’à partir de la version {version}",
        "solo existe desde la versión {version}",
    ],
    [
        "a name has {most} characters at most",
        "un nom a {most} caractères au plus",
        "un nombre tiene {most} caracteres como máximo",
    ],
    [
        "a name has no control characters",
        "un nom n’a pas de caractères de commande",
        "un nombre no lleva caracteres de control",
    ],
    [
        "“{found}” must be {wanted}",
        "« {found} » doit être {wanted}",
        "«{found}» debe ser {wanted}",
    ],
    ["kg or lb", "kg ou lb", "kg o lb"],
    ["cm, mm or in", "cm, mm ou in", "cm, mm o in"],
    ["cm2 or in2", "cm2 ou in2", "cm2 o in2"],
    [
        "“{found}” is out of range: it must be at most 100",
        "« {found} » est hors limites : au plus 100",
        "«{found}» está fuera de rango: debe ser 100 como máximo",
    ],
    [
        "“{found}” is out of range: it must be below 100",
        "« {found} » est hors limites : moins de 100",
        "«{found}» está fuera de rango: debe ser menor que 100",
    ],
    [
        "it must be a whole number from 0 to 100",
        "doit être un nombre entier de 0 à 100",
        "debe ser un número entero de 0 a 100",
    ],
    [
        "it must be above 0",
        "doit être au-dessus de 0",
        "debe ser mayor que 0",
    ],
    [
        "the grade needs the measures of the carcass in deal.carcass",
        "la catégorie a besoin des mesures de la carcasse dans deal.carcass",
        "el grado necesita las medidas de la canal en deal.carcass",
    ],
    [
        "the side must weigh more than 0",
        "la demi-carcasse doit peser plus de 0",
        "la media canal debe pesar más de 0",
    ],
    [
        "it must be from 1 to {most}",
        "doit être de 1 à {most}",
        "debe ser de 1 a {most}",
    ],
    [
        "a deal has {most} charges at most",
        "une offre a {most} frais au plus",
        "una oferta tiene {most} cargos como máximo",
    ],
    [
        "there is no field left for this charge",
        "il ne reste aucun champ pour ces frais",
        "no queda ningún campo para este cargo",
    ],
    [
        "it needs the loss in the cooler, shrink_percent, or the days in it, days_hung",
        "il faut la freinte en chambre froide, shrink_percent, ou les jours de suspension, days_hung",
        "hace falta la merma en frío, shrink_percent, o los días colgada, days_hung",
    ],
    [
        "no plan is called “{found}”",
        "aucun plan ne s’appelle « {found} »",
        "ningún plan se llama «{found}»",
    ],
    [
        "no part has this name",
        "aucune pièce n’a ce nom",
        "ninguna pieza tiene este nombre",
    ],
    [
        "no way has this name",
        "aucune façon n’a ce nom",
        "ninguna manera tiene este nombre",
    ],
    [
        "“{found}” is not a way of this part",
        "« {found} » n’est pas une façon de cette pièce",
        "«{found}» no es una manera de esta pieza",
    ],
    [
        "no product has this name",
        "aucun produit n’a ce nom",
        "ningún producto tiene este nombre",
    ],
    [
        "no class of grind has this name",
        "aucune catégorie de haché n’a ce nom",
        "ninguna clase de molida tiene este nombre",
    ],
    [
        "the whole side is never split",
        "la demi-carcasse entière n’est jamais partagée",
        "la media canal entera nunca se reparte",
    ],
    [
        "it leaves no fat for “{class}”: it must be below {limit}",
        "ne laisse aucun gras à « {class} » : doit être inférieur à {limit}",
        "no deja grasa para «{class}»: debe ser menor que {limit}",
    ],
    [
        "a pack must hold more than 0",
        "un paquet doit contenir plus de 0",
        "un paquete debe contener más de 0",
    ],
    [
        "unsold and marked down must leave something to sell",
        "l’invendu et le vendu au rabais doivent laisser quelque chose à vendre",
        "lo no vendido y lo rebajado deben dejar algo que vender",
    ],
    [
        "a single cut has no field for it: it must be “{common}”, as in shop.losses",
        "une coupe seule n’a pas de champ pour cela : doit être « {common} », comme dans shop.losses",
        "un solo corte no tiene campo para ello: debe ser «{common}», como en shop.losses",
    ],
    [
        "the text has more than {most} bytes.",
        "le texte a plus de {most} octets.",
        "el texto tiene más de {most} bytes.",
    ],
    [
        "the text must begin with “{kind}”.",
        "le texte doit commencer par « {kind} ».",
        "el texto debe empezar por «{kind}».",
    ],
    [
        "a newer Sideworth wrote this, and this one reads up to version {read}: open it with the newer one.",
        "un Sideworth plus récent a écrit ceci, et celui-ci lit jusqu’à la version {read} : ouvrez-le avec le plus récent.",
        "un Sideworth más nuevo escribió esto, y este lee hasta la versión {read}: ábralo con el más nuevo.",
    ],
    [
        "there are more than {most} lines.",
        "il y a plus de {most} lignes.",
        "hay más de {most} líneas.",
    ],
    [
        "“{found}” must be {wanted}.",
        "« {found} » doit être {wanted}.",
        "«{found}» debe ser {wanted}.",
    ],
    [
        "nothing stands where {wanted} should.",
        "il n’y a rien là où il faut {wanted}.",
        "no hay nada donde debe estar {wanted}.",
    ],
    [
        "the end does not fit the lines before it.",
        "la fin ne correspond pas aux lignes qui la précèdent.",
        "el final no corresponde a las líneas anteriores.",
    ],
    [
        "the text is cut off here: take it from a copy.",
        "le texte est coupé ici : reprenez-le d’une copie.",
        "el texto se corta aquí: tómelo de una copia.",
    ],
    [
        "the end of the line",
        "la fin de la ligne",
        "el final de la línea",
    ],
    [
        "- where there is no date",
        "- quand il n’y a pas de date",
        "- cuando no hay fecha",
    ],
    ["a claim", "une allégation", "una declaración"],
    [
        "a code of its own",
        "un code à lui seul",
        "un código propio",
    ],
    ["a date", "une date", "una fecha"],
    ["a date or -", "une date ou -", "una fecha o -"],
    ["a document or -", "un document ou -", "un documento o -"],
    ["a farm or -", "une ferme ou -", "una granja o -"],
    ["a lot code", "un code de lot", "un código de lote"],
    [
        "a lot number or -",
        "un numéro de lot ou -",
        "un número de lote o -",
    ],
    ["a margin", "une marge", "un margen"],
    ["a name or -", "un nom ou -", "un nombre o -"],
    [
        "a number of sides",
        "un nombre de demi-carcasses",
        "una cantidad de medias canales",
    ],
    [
        "a plant or -",
        "un établissement d’abattage ou -",
        "una planta de faena o -",
    ],
    ["a price", "un prix", "un precio"],
    ["a product", "un produit", "un producto"],
    ["a product or -", "un produit ou -", "un producto o -"],
    ["a share of grass", "une part d’herbe", "una parte de pasto"],
    ["a supplier or -", "un fournisseur ou -", "un proveedor o -"],
    ["a tare", "une tare", "una tara"],
    [
        "a tare below the weight",
        "une tare inférieure au poids",
        "una tara menor que el peso",
    ],
    [
        "a temperature or -",
        "une température ou -",
        "una temperatura o -",
    ],
    [
        "a time in milliseconds",
        "une heure en millisecondes",
        "una hora en milisegundos",
    ],
    [
        "a time in milliseconds or -",
        "une heure en millisecondes ou -",
        "una hora en milisegundos o -",
    ],
    [
        "a time such as 07:45",
        "une heure, par exemple 07:45",
        "una hora, como 07:45",
    ],
    [
        "a time such as 07:45, or -",
        "une heure, par exemple 07:45, ou -",
        "una hora, como 07:45, o -",
    ],
    [
        "a time that ends after its start",
        "un temps qui finit après son début",
        "un tiempo que acaba después de su inicio",
    ],
    ["a way", "une façon", "una manera"],
    ["a way or -", "une façon ou -", "una manera o -"],
    ["a weight", "un poids", "un peso"],
    ["an age or -", "un âge ou -", "una edad o -"],
    [
        "left, right or -",
        "left (gauche), right (droite) ou -",
        "left (izquierda), right (derecha) o -",
    ],
    [
        "lots with their weights",
        "des lots avec leurs poids",
        "lotes con sus pesos",
    ],
    ["minutes", "des minutes", "minutos"],
    [
        "one of the first times",
        "l’un des premiers temps",
        "uno de los primeros tiempos",
    ],
    [
        "one of the first twenty claims",
        "l’une des vingt premières allégations",
        "una de las veinte primeras declaraciones",
    ],
    [
        "the code of a batch",
        "le code d’un lot haché",
        "el código de una tanda",
    ],
    ["the mark b", "la marque b", "la marca b"],
    [
        "the mark of its outputs",
        "la marque de ce qu’elle donne",
        "la marca de lo que da",
    ],
    ["the mark w", "la marque w", "la marca w"],
    [
        "the tag of the side",
        "l’étiquette de la demi-carcasse",
        "la etiqueta de la media canal",
    ],
    ["w, m or t", "w, m ou t", "w, m o t"],
    ["what was cut", "ce qui a été découpé", "lo que se cortó"],
    ["yes or no", "yes (oui) ou no (non)", "yes (sí) o no (no)"],
];
