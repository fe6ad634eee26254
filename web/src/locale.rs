//! The language, and how numbers, money and days are written: as the browser
//! has them, unless another language was chosen here.

use std::cell::RefCell;

use gloo_storage::{LocalStorage, Storage};
use js_sys::{Array, Date, Function, Intl, Object, Reflect};
use notation::Manner;
use quantity::Currency;
use wasm_bindgen::{JsCast, JsValue};
use wording::Language;

use crate::keeping;

/// The key of the language that was chosen; `language.js` reads it.
const CHOSEN: &str = "sideworth/language";

/// Currencies that are offered: such as have hundredths, since prices are
/// worked out to the hundredth.
pub const CURRENCIES: [&str; 22] = [
    "ARS", "AUD", "BOB", "BRL", "CAD", "CHF", "COP", "CRC", "DKK", "DOP", "EUR", "GBP", "GTQ",
    "HNL", "MXN", "NOK", "NZD", "PEN", "SEK", "USD", "UYU", "ZAR",
];

/// The currency of a country (ISO 3166-1), where it is one of those offered.
const COUNTRIES: [(&str, &str); 21] = [
    ("AR", "ARS"),
    ("AU", "AUD"),
    ("BO", "BOB"),
    ("BR", "BRL"),
    ("CA", "CAD"),
    ("CH", "CHF"),
    ("CO", "COP"),
    ("CR", "CRC"),
    ("DK", "DKK"),
    ("DO", "DOP"),
    ("GB", "GBP"),
    ("GT", "GTQ"),
    ("HN", "HNL"),
    ("MX", "MXN"),
    ("NO", "NOK"),
    ("NZ", "NZD"),
    ("PE", "PEN"),
    ("SE", "SEK"),
    ("UY", "UYU"),
    ("US", "USD"),
    ("ZA", "ZAR"),
];

/// Countries whose currency is the euro and whose languages the app speaks.
const EURO: [&str; 7] = ["AT", "BE", "DE", "ES", "FR", "IE", "LU"];

thread_local! {
    /// The locale that numbers and days are written by (BCP 47).
    static LOCALE: RefCell<String> = RefCell::new(Language::English.tag().to_owned());
}

/// Keeps a chosen language for the next start.
pub fn choose(language: Language) {
    if keeping::is_allowed() {
        // Where there is no room for it, the browser's language stays.
        let _ = LocalStorage::raw().set_item(CHOSEN, language.tag());
    }
}

/// Writes numbers and days as the browser's user does in this language: the
/// first locale of the browser in it, else the language without a country.
pub fn write_in(language: Language) {
    let locale = browser_locales()
        .find(|tag| {
            Language::of_tag(tag) == Some(language) && format(tag, &Object::new()).is_some()
        })
        .unwrap_or_else(|| language.tag().to_owned());
    LOCALE.with(|slot| slot.replace(locale));
}

/// The currency where the browser's user is, as far as the locales say; the
/// dollar where they do not.
pub fn local_currency() -> Option<Currency> {
    let code = browser_locales()
        .find_map(|tag| {
            let country = tag.split('-').skip(1).find(|part| part.len() == 2)?;
            if EURO.contains(&country) {
                return Some("EUR");
            }
            let known = COUNTRIES.iter().find(|(known, _)| *known == country)?;
            Some(known.1)
        })
        .unwrap_or("USD");
    code.parse().ok()
}

/// How amounts in a currency are written in the locale in force; plainly where
/// the browser cannot tell.
#[inline(never)]
pub fn manner(currency: Currency) -> Manner {
    let locale = LOCALE.with(|locale| locale.borrow().clone());
    read_manner(&locale, currency).unwrap_or_default()
}

/// Reads off how the browser writes an amount. The number has enough digits to
/// be grouped in every locale, and none that is a zero.
fn read_manner(locale: &str, currency: Currency) -> Option<Manner> {
    let options = Object::new();
    for (name, value) in [
        ("style", "currency"),
        ("currency", &currency.code()),
        ("numberingSystem", "latn"),
    ] {
        Reflect::set(&options, &name.into(), &value.into()).ok()?;
    }
    let format = format(locale, &options)?;
    let mut manner = Manner {
        decimal: ".".to_owned(),
        group: String::new(),
        grouped_from: 4,
        before: String::new(),
        behind: String::new(),
    };
    let mut is_behind = false;
    for (kind, text) in parts(&format, 1_234_567.5) {
        match kind.as_str() {
            "decimal" => manner.decimal = text,
            "group" => manner.group = text,
            "integer" | "fraction" => is_behind = true,
            _ if is_behind => manner.behind += &text,
            _ => manner.before += &text,
        }
    }
    let is_thousand_grouped = parts(&format, 1234.5).any(|(kind, _)| kind == "group");
    if !is_thousand_grouped {
        manner.grouped_from = 5;
    }
    (!manner.sign().is_empty()).then_some(manner)
}

/// What writes numbers in a locale. Where the browser has a locale that it does
/// not know itself (some name the “C” of the system), making it throws.
fn format(locale: &str, options: &Object) -> Option<Intl::NumberFormat> {
    let intl = Reflect::get(&js_sys::global(), &"Intl".into()).ok()?;
    let maker: Function = Reflect::get(&intl, &"NumberFormat".into())
        .ok()?
        .dyn_into()
        .ok()?;
    let given = Array::of2(&locale.into(), options);
    Reflect::construct(&maker, &given).ok()?.dyn_into().ok()
}

/// The parts of a number as the browser writes it: what each is, and its text.
fn parts(format: &Intl::NumberFormat, number: f64) -> impl Iterator<Item = (String, String)> {
    let text = |part: &JsValue, name: &str| {
        Reflect::get(part, &name.into())
            .ok()
            .and_then(|value| value.as_string())
            .unwrap_or_default()
    };
    format
        .format_to_parts(number)
        .to_vec()
        .into_iter()
        .map(move |part| (text(&part, "type"), text(&part, "value")))
}

/// A day as it is written in the locale in force.
pub fn day(milliseconds: u64) -> String {
    let options = Object::new();
    // It cannot fail on an object of one's own.
    let _ = Reflect::set(&options, &"dateStyle".into(), &"medium".into());
    #[expect(
        clippy::cast_precision_loss,
        reason = "a date is far below 2^53 milliseconds"
    )]
    let date = Date::new(&(milliseconds as f64).into());
    LOCALE.with(|locale| String::from(date.to_locale_date_string(&locale.borrow(), &options)))
}

/// What the browser says of its user's languages, the best first.
fn browser_locales() -> impl Iterator<Item = String> {
    web_sys::window()
        .map(|window| window.navigator().languages().to_vec())
        .unwrap_or_default()
        .into_iter()
        .filter_map(|tag| tag.as_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_is_one_and_is_offered() {
        for code in CURRENCIES {
            assert_eq!(
                code.parse::<Currency>().map(|it| it.to_string()),
                Ok(code.to_owned())
            );
        }
        for (_, code) in COUNTRIES {
            assert!(CURRENCIES.contains(&code), "{code}");
        }
        assert!(CURRENCIES.contains(&"EUR"));
    }
}
