//! Prices and days as people type them.

use jiff::civil::Date;

use super::Money;

/// Signs of currencies that stand for one alone.
const SIGNS: [(char, &str); 2] = [('€', "EUR"), ('£', "GBP")];

/// An amount with its currency before or behind it; a comma counts as a decimal point, small letters as capitals.
///
/// ```
/// use propwright_schema::quantity::read_money;
/// for text in ["17.90 EUR", "17,90 €", "€17.90", "eur 17,9"] {
///     assert_eq!(read_money(text), "17.90 EUR".parse().ok(), "{text}");
/// }
/// assert_eq!(read_money("17.90"), None); // of which currency?
/// ```
pub fn read_money(text: &str) -> Option<Money> {
    let mut text = text.to_uppercase();
    for (sign, letters) in SIGNS {
        text = text.replace(sign, &format!(" {letters} "));
    }
    let is_figure = |letter: char| letter.is_ascii_digit() || matches!(letter, '.' | ',' | '-' | '−');
    let figure: String = text.chars().filter(|letter| is_figure(*letter)).collect();
    let words: Vec<&str> = text.split(|letter: char| is_figure(letter) || letter.is_whitespace()).collect();
    let currency = words.iter().find(|word| !word.is_empty())?;
    // One figure and one currency, and nothing else.
    let one = |is: &dyn Fn(char) -> bool| text.split(|letter| !is(letter)).filter(|piece| !piece.is_empty()).count() == 1;
    if !one(&is_figure) || !one(&|letter| !is_figure(letter) && !letter.is_whitespace()) {
        return None;
    }
    let point = figure.contains('.') || figure.matches(',').count() != 1;
    let figure = figure.replace('−', "-");
    let figure = if point { figure } else { figure.replace(',', ".") };
    format!("{figure} {currency}").parse().ok()
}

/// A day: `2026-08-14`, or `14.8.2026`; what could be two days, such as 8/9/2026, is none.
///
/// ```
/// use propwright_schema::quantity::read_day;
/// assert_eq!(read_day("14.8.2026"), read_day("2026-08-14"));
/// assert_eq!(read_day("8/9/2026"), None);
/// ```
pub fn read_day(text: &str) -> Option<Date> {
    let dotted = || {
        let mut numbers = text.split('.').map(|number| number.trim().parse::<i16>().ok());
        let (day, month, year) = (numbers.next()??, numbers.next()??, numbers.next()??);
        if numbers.next().is_some() {
            return None;
        }
        Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
    };
    text.trim().parse().ok().or_else(dotted)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_price_or_could_be_two_is_refused() {
        for text in ["", "EUR", "17", "17.90 EUR GBP", "17 90 EUR", "1,790.00 EUR", "17.905 EUR", "17.90 EURO", "$17.90"] {
            assert_eq!(read_money(text), None, "{text}");
        }
        assert_eq!(read_money("1200 jpy"), "1200 JPY".parse().ok());
        assert_eq!(read_money("£ 24"), "24.00 GBP".parse().ok());
    }

    #[test]
    fn what_is_no_day_is_refused() {
        for text in ["", "2026-13-01", "31.2.2026", "1.2.3.4", "yesterday", "14.8."] {
            assert_eq!(read_day(text), None, "{text}");
        }
    }
}
