//! Comparing with a reference at its printed digits.

/// Asserts that `value`, rounded to as many decimals as `printed` shows, is `printed`.
#[track_caller]
pub(crate) fn assert_printed(value: f64, printed: &str) {
    let decimals = printed.split_once('.').map_or(0, |(_, fraction)| fraction.len());
    assert_eq!(format!("{value:.decimals$}"), printed, "computed {value}");
}
