//! Spanish words of a table: each stands for one of the table's own.

/// The table's own word for a word or words in small letters; those themselves where they are none of these.
pub(super) fn own(word: &str) -> &str {
    match word {
        "tallo" | "tallos" | "tronco" | "troncos" => "stem",
        "guía" | "guia" | "guías" | "guias" | "cordón" => "leader",
        "vertical" | "verticales" | "vara" | "varas" => "upright",
        "brote" | "brotes" => "shoot",
        "yema" | "yemas" => "bud",
        "tocón" | "tocon" | "tocones" => "stub",
        "perdido" | "muerto" | "falta" => "lost",
        "izquierda" | "izq" => "left",
        "derecha" | "der" => "right",
        "arriba" => "top",
        "costado" => "side",
        "abajo" | "debajo" => "under",
        "tumbado" | "tumbada" => "laid",
        "parado" | "parada" => "upright",
        "libre" => "free",
        "plantado" => "planted",
        "grados" => "degrees",
        "sí" | "si" => "yes",
        "ninguno" | "ninguna" => "none",
        "desnudo" => "bare",
        "plástico" | "plastico" => "plastic",
        // What the lines above the names say.
        "hoja que viene" => "coming leaf",
        "comienzo de la hilera" => "row from",
        "fin de la hilera" => "row to",
        "alambre" | "alambres" => "wire",
        "altura del muro" => "wall height",
        "poste" | "postes" => "posts",
        "latitud" => "latitude",
        "longitud" => "longitude",
        "rumbo de la hilera" => "row bearing",
        "distancia entre hileras" => "row spacing",
        "hilera" | "nombre de la hilera" => "row name",
        word => word,
    }
}
