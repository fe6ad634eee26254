//! What the scale's place says of the weigh-in, its closing, its report and
//! closed tests. The worker says it.

use super::Row;

/// The rows, by where they are said.
pub(super) const ROWS: &[Row] = &[
    [
        "What the scale says",
        "Ce que dit la balance",
        "Lo que dice la báscula",
    ],
    ["Weigh-in", "Pesée", "Pesaje"],
    ["Cutting tests", "Essais de coupe", "Pruebas de corte"],
    ["Own yields", "Nos rendements", "Rendimientos propios"],
    ["Suppliers", "Fournisseurs", "Proveedores"],
    ["Record", "Registre", "Registro"],
    ["Bought piece", "Pièce achetée", "Pieza comprada"],
];
