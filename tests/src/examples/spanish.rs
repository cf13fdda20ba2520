//! What the examples say, in Spanish.

/// The Spanish text for an English one of the examples.
///
/// # Panics
/// There is none: the examples say something new.
pub(super) fn say(english: &str) -> &'static str {
    let found = TEXTS.iter().find(|(text, _)| *text == english);
    let Some((_, spanish)) = found else {
        panic!("the examples lack a Spanish text: {english}");
    };
    spanish
}

const TEXTS: &[(&str, &str)] = &[
    // Rows.
    ("Clean third leaf", "Tercera hoja en orden"),
    ("A lost tree", "Un árbol perdido"),
    ("Missed bud removal", "Desyeme olvidado"),
    ("Opposed leans", "Inclinaciones opuestas"),
    ("Overdue renewal", "Renovación atrasada"),
    ("Short headed stock", "Planta corta y rebajada"),
    ("Third leaf with a gap", "Tercera hoja con un hueco"),
    ("Two opposed cordons", "Dos cordones opuestos"),
    ("Uneven uprights", "Verticales desparejos"),
    ("As found", "Como se encontró"),
    ("Keep and fill", "Dejar y llenar"),
    ("Renew a fifth", "Renovar un quinto"),
    ("Renew and tip", "Renovar y despuntar"),
    ("Renew", "Renovar"),
    (
        "arrived headed, planted short",
        "llegó rebajado, plantado corto",
    ),
    ("died in its third leaf", "murió en su tercera hoja"),
    (
        "Lay the end shoot of tree 5 along the wire",
        "Tumbar por el alambre el brote de punta del árbol 5",
    ),
    (
        super::INVENTED,
        "Hilera de demostración inventada; no se plantó ninguna así.",
    ),
    (
        "The cordon is filled, the uprights stand evenly and are clean of laterals.",
        "El cordón está lleno, los verticales están parejos y limpios de laterales.",
    ),
    (
        "Tree 5 is dead; its place of 1.5 m is bare until it is replaced or its neighbours fill it.",
        "El árbol 5 está muerto; su lugar de 1,5 m está desnudo hasta que se reponga o lo llenen sus vecinos.",
    ),
    (
        "The buds on the sides and underneath were not rubbed out in the first leaf.",
        "Las yemas de los costados y de abajo no se quitaron en la primera hoja.",
    ),
    (
        "Single leaders lean left and right in turn at even spacing: every second interval is covered twice, the others are bare.",
        "Las guías únicas se inclinan alternadas a izquierda y derecha con espacio parejo: un intervalo sí y otro no queda cubierto dos veces, los demás están desnudos.",
    ),
    (
        "No upright was ever stubbed: the fruiting wood is six to eight seasons old.",
        "Nunca se rebajó un vertical a tocón: la madera que produce tiene seis a ocho temporadas.",
    ),
    (
        "The stock came headed at about 1.15 m; the first season's end shoots do not reach the next tree.",
        "La planta llegó rebajada a cerca de 1,15 m; los brotes de punta de la primera temporada no llegan al árbol siguiente.",
    ),
    (
        "Tree 5 was planted short: its end shoot, laid to the right, closes the gap before tree 6.",
        "El árbol 5 se plantó corto: su brote de punta, tumbado a la derecha, cierra el hueco antes del árbol 6.",
    ),
    (
        "Each tree forks at the wire into two leaders and bears some twelve uprights.",
        "Cada árbol se abre en el alambre en dos guías y lleva unos doce verticales.",
    ),
    (
        "Uprights crowd here and are missing there, and the strong ones have outgrown the others.",
        "Los verticales se amontonan aquí y faltan allá, y los fuertes dejaron atrás a los demás.",
    ),
    // Lessons: their titles.
    (
        "Lesson: bud removal done, or missed and set right",
        "Lección: desyeme hecho, u olvidado y corregido",
    ),
    (
        "Lesson: missed buds set right, or never",
        "Lección: desyeme olvidado y corregido, o nunca",
    ),
    (
        "Lesson: structure first or crop first, on a row with missed buds",
        "Lección: primero estructura o primero producción, en una hilera sin desyemar",
    ),
    (
        "Lesson: stock left whole, or headed at planting",
        "Lección: planta entera, o rebajada al plantar",
    ),
    (
        "Lesson: headed stock laid at once, or a leaf later",
        "Lección: planta rebajada tumbada enseguida, o una hoja después",
    ),
    (
        "Lesson: renewal of a fifth, or none",
        "Lección: renovar un quinto, o nada",
    ),
    (
        "Lesson: renewal of a fifth, or a quarter",
        "Lección: renovar un quinto, o un cuarto",
    ),
    (
        "Lesson: renewal of a fifth, or an eighth",
        "Lección: renovar un quinto, o un octavo",
    ),
    (
        "Lesson: renewal begun before leaf 3, or before leaf 5",
        "Lección: empezar a renovar antes de la hoja 3, o de la hoja 5",
    ),
    (
        "Lesson: tipped until the wall has its height, or every winter",
        "Lección: despuntar hasta que el muro tiene su altura, o cada invierno",
    ),
    (
        "Lesson: laid with a slight rise, or dead flat",
        "Lección: tumbada con poca subida, o totalmente a nivel",
    ),
    (
        "Lesson: all leaders one way, or by turns",
        "Lección: todas las guías hacia un lado, o alternadas",
    ),
    // What they are about.
    (
        "Question: what does it cost when the buds on the sides and the underside are not rubbed out in the first leaf? Answer: fewer and less even uprights at the end of leaf 1, and less crop in leaves 3 to 5, although all is set right before leaf 2. Look at: uprights and their lengths in leaf 1, crop in leaves 3 to 5. How sure: at the usual values it holds in ten rows of ten. That side buds come off is common practice, no source.",
        "Pregunta: ¿qué cuesta no quitar en la primera hoja las yemas de los costados y de abajo? Respuesta: menos verticales y más desparejos al terminar la hoja 1, y menos producción en las hojas 3 a 5, aunque todo se corrija antes de la hoja 2. Mirar: verticales y sus largos en la hoja 1, producción en las hojas 3 a 5. Qué tan seguro: con los valores usuales se cumple en diez hileras de diez. Que las yemas de costado se quitan es práctica común, sin fuente.",
    ),
    (
        "Question: what becomes of side and underside shoots that nobody takes off? Answer: the wall has fewer uprights of its own, and they are hidden among shoots that reach into the alley. Look at: uprights in leaves 2 to 6. How sure: the loss of uprights is. The model has the side shoots bear, and more crop in leaves 3 to 5 with them: that can't be trusted, since shade does not act on fruit in it; a published trial (HortScience 2016, abstract) found more crop by leaf 5 where buds were selected.",
        "Pregunta: ¿qué pasa con los brotes de costado y de abajo que nadie quita? Respuesta: el muro tiene menos verticales propios, y quedan escondidos entre brotes que entran a la calle. Mirar: verticales en las hojas 2 a 6. Qué tan seguro: la pérdida de verticales lo es. El modelo deja producir a los brotes de costado, y con ellos da más en las hojas 3 a 5: en eso no se puede confiar, pues en él la sombra no actúa sobre la fruta; un ensayo publicado (HortScience 2016, resumen) encontró más producción a la hoja 5 donde se escogieron las yemas.",
    ),
    (
        "Question: is it worth taking what leaf 2 would bear, and mending the row later? Answer: no; a row that is set right before leaf 2 bears far more in leaves 4 and 5 than one that is cropped and cleaned before leaf 4. Look at: crop in leaves 2 to 5. How sure: at the usual values it holds in ten rows of ten; on a clean row only flowers are at stake, and there the sum of three years may turn. That structure goes before crop is common practice, no source.",
        "Pregunta: ¿vale la pena tomar lo que daría la hoja 2, y arreglar la hilera después? Respuesta: no; una hilera corregida antes de la hoja 2 da mucho más en las hojas 4 y 5 que una que se cosecha y se limpia antes de la hoja 4. Mirar: producción en las hojas 2 a 5. Qué tan seguro: con los valores usuales se cumple en diez hileras de diez; en una hilera limpia solo están en juego las flores, y ahí la suma de tres años puede volverse. Que la estructura va antes que la producción es práctica común, sin fuente.",
    ),
    (
        "Question: what does heading the stock at 0.9 m cost? Answer: a year; the cordon is filled later, and leaves 3 to 5 bear far less. Look at: cordon fill in leaves 1 and 2, crop in leaves 3 to 5. How sure: at the usual values it holds in ten rows of ten. That stock is as long as the spacing is common practice, no source.",
        "Pregunta: ¿qué cuesta rebajar la planta a 0,9 m? Respuesta: un año; el cordón se llena más tarde, y las hojas 3 a 5 dan mucho menos. Mirar: cordón lleno en las hojas 1 y 2, producción en las hojas 3 a 5. Qué tan seguro: con los valores usuales se cumple en diez hileras de diez. Que la planta sea tan larga como la distancia es práctica común, sin fuente.",
    ),
    (
        "Question: when is headed stock laid? Answer: a leaf later; what stands grows more than what lies, so the cordon is filled more by the end of leaf 2 and leaves 3 to 5 bear some more. Look at: cordon fill in leaf 2, crop in leaves 3 to 5. How sure: strong growth fills both; that steeper wood grows more is published (extension, rules of shoot growth), how much is assumed.",
        "Pregunta: ¿cuándo se tumba una planta rebajada? Respuesta: una hoja después; lo que está parado crece más que lo tumbado, así que el cordón está más lleno al terminar la hoja 2 y las hojas 3 a 5 dan algo más. Mirar: cordón lleno en la hoja 2, producción en las hojas 3 a 5. Qué tan seguro: con crecimiento fuerte se llenan los dos; que la madera más empinada crece más está publicado (extensión, reglas del crecimiento de brotes), cuánto es un supuesto.",
    ),
    (
        "Question: is crop lost by cutting a fifth of the uprights each winter? Answer: in leaves 3 to 6 it is; in leaves 8 to 10 the renewed wall bears larger fruit, and by the usual values more. Look at: crop, fruit mass and oldest wood in leaves 4 to 10. How sure: more large fruit is; more crop is not, and most draws say less: it hangs on how fast old wood declines, which is assumed (a marked fall from the fourth year is reported in a trade article, 2024).",
        "Pregunta: ¿se pierde producción al cortar cada invierno un quinto de los verticales? Respuesta: en las hojas 3 a 6 sí; en las hojas 8 a 10 el muro renovado da fruta más grande, y con los valores usuales más. Mirar: producción, peso de la fruta y madera más vieja en las hojas 4 a 10. Qué tan seguro: lo de más fruta grande sí; lo de más producción no, y la mayoría de los intentos dice menos: depende de qué tan rápido decae la madera vieja, que es un supuesto (un artículo del ramo, 2024, informa una caída marcada desde el cuarto año).",
    ),
    (
        "Question: does more renewal bring more? Answer: no; a quarter keeps the wood younger, and costs crop in leaves 8 to 10, since a stub bears nothing for two seasons. Look at: crop and oldest wood in leaves 8 to 10. How sure: at the usual values it holds in ten rows of ten. A fifth is common practice, no source; an eighth is published too.",
        "Pregunta: ¿renovar más da más? Respuesta: no; un cuarto mantiene la madera más joven, y cuesta producción en las hojas 8 a 10, pues un tocón no da nada en dos temporadas. Mirar: producción y madera más vieja en las hojas 8 a 10. Qué tan seguro: con los valores usuales se cumple en diez hileras de diez. Un quinto es práctica común, sin fuente; un octavo también está publicado.",
    ),
    (
        "Question: is an eighth a year enough? Answer: in the model it bears a little more in leaves 8 to 10, and its oldest wood is older. Look at: crop, oldest wood and the age at which wood is cut in leaves 8 to 10. How sure: the ages follow from the shares; the crop is told as found. An eighth is published (trade article on whole-tree renewal), a fifth common practice.",
        "Pregunta: ¿basta un octavo al año? Respuesta: en el modelo da un poco más en las hojas 8 a 10, y su madera más vieja es más vieja. Mirar: producción, madera más vieja y la edad a la que se corta en las hojas 8 a 10. Qué tan seguro: las edades salen de las partes; la producción se dice como se encontró. Un octavo está publicado (artículo del ramo sobre renovación de todo el árbol), un quinto es práctica común.",
    ),
    (
        "Question: does it matter when renewal begins? Answer: begun late it cuts older wood, by one or two years, and the wall is renewed later. Look at: oldest wood and the age at which it is cut. How sure: at the usual values it holds in ten rows of ten; many failing buds turn it.",
        "Pregunta: ¿importa cuándo empieza la renovación? Respuesta: empezada tarde corta madera más vieja, por uno o dos años, y el muro se renueva más tarde. Mirar: madera más vieja y la edad a la que se corta. Qué tan seguro: con los valores usuales se cumple en diez hileras de diez; si fallan muchas yemas se vuelve.",
    ),
    (
        "Question: is tipping every winter worth it beside renewal? Answer: no; a fifth off the length takes near half of the future sites, and with renewal that costs a quarter to half of the crop; the fruit is larger. Look at: crop and fruit mass in leaves 5 to 10. How sure: at the usual values it holds in ten rows of ten. The shares are published (training lecture, 2013).",
        "Pregunta: ¿vale la pena despuntar cada invierno además de renovar? Respuesta: no; un quinto del largo se lleva cerca de la mitad de los puntos de fruta futuros, y con renovación eso cuesta un cuarto a la mitad de la producción; la fruta es más grande. Mirar: producción y peso de la fruta en las hojas 5 a 10. Qué tan seguro: con los valores usuales se cumple en diez hileras de diez. Las partes están publicadas (conferencia sobre formación, 2013).",
    ),
    (
        "Question: why is the leader laid with a slight rise? Answer: dead flat, the uprights near the trunk get more and grow uneven. Look at: the uprights' lengths in leaves 1 to 3. How sure: the sign is in growers' guides, how much is assumed.",
        "Pregunta: ¿por qué la guía se tumba con poca subida? Respuesta: totalmente a nivel, los verticales junto al tronco reciben más y crecen desparejos. Mirar: los largos de los verticales en las hojas 1 a 3. Qué tan seguro: el signo está en guías de productores, cuánto es un supuesto.",
    ),
    (
        "Question: why do all single leaders run the same way? Answer: laid by turns at even spacing they cover one space twice and leave the next bare. Look at: the cordon band and cordon fill. How sure: it is geometry.",
        "Pregunta: ¿por qué todas las guías únicas van hacia el mismo lado? Respuesta: tumbadas por turnos con espacio parejo cubren un espacio dos veces y dejan el siguiente desnudo. Mirar: la banda del cordón y cuánto está lleno. Qué tan seguro: es geometría.",
    ),
    // Their schemes.
    ("Done", "Hecho"),
    ("Missed, set right", "Olvidado, corregido"),
    ("Set right before leaf 2", "Corregido antes de la hoja 2"),
    ("Never", "Nunca"),
    ("Structure first", "Primero estructura"),
    ("Crop first", "Primero producción"),
    ("Whole", "Entera"),
    ("Headed at 0.9 m", "Rebajada a 0,9 m"),
    ("A leaf later", "Una hoja después"),
    ("At once", "Enseguida"),
    ("A fifth", "Un quinto"),
    ("A quarter", "Un cuarto"),
    ("An eighth", "Un octavo"),
    ("Before leaf 3", "Antes de la hoja 3"),
    ("Before leaf 5", "Antes de la hoja 5"),
    ("Until it has its height", "Hasta tener su altura"),
    ("Every winter", "Cada invierno"),
    ("Rising 3°", "Con 3° de subida"),
    ("Flat", "A nivel"),
    ("One way", "Hacia un lado"),
    ("By turns", "Alternadas"),
    // What holds how often.
    (
        super::lessons::HOW_OFTEN,
        "Cuántas veces «{}» tuvo más, con cada valor del modelo sacado de su rango: {}.",
    ),
    (super::lessons::OF, " de "),
    (
        "cordon fill at the end of leaf 1",
        "cordón lleno al terminar la hoja 1",
    ),
    (
        "cordon fill at the end of leaf 2",
        "cordón lleno al terminar la hoja 2",
    ),
    ("crop of leaves 3 to 5", "producción de las hojas 3 a 5"),
    ("crop of leaves 4 and 5", "producción de las hojas 4 y 5"),
    ("crop of leaves 8 to 10", "producción de las hojas 8 a 10"),
    (
        "large fruit of leaves 8 to 10",
        "fruta grande de las hojas 8 a 10",
    ),
    (
        "less age of the oldest wood of leaves 8 to 10",
        "menos edad de la madera más vieja de las hojas 8 a 10",
    ),
    (
        "less age of the oldest wood that is cut",
        "menos edad de la madera más vieja que se corta",
    ),
    (
        "uprights at the end of leaf 1",
        "verticales al terminar la hoja 1",
    ),
    (
        "uprights at the end of leaf 4",
        "verticales al terminar la hoja 4",
    ),
];
