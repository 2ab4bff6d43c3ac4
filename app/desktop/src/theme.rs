//! Tones, type and spacing of the whole program: one file, read from `assets/theme.ron`.
//!
//! Panels name tokens (paper, ink, accent …), never a colour. Widgets that paint take the [`Tokens`] in force with
//! [`tokens`]. Status tones colour marks and bars only, never text, and never stand without a shape and a word.

use std::sync::Arc;

use egui::epaint::text::{FontData, FontDefinitions};
use egui::style::{ScrollStyle, Selection, WidgetVisuals, Widgets};
use egui::{Color32, CornerRadius, FontFamily, FontId, Id, Margin, RichText, Shadow, Stroke, Style, TextStyle, Visuals, vec2};
use serde::{Deserialize, Deserializer, de::Error as _};

/// Size of a ledger's figure, in points.
pub const FIGURE: f32 = 25.0;
/// Size of a title, a tab or a finding's sentence, in points.
pub const TITLE: f32 = 15.0;
/// Size of running text, in points.
pub const TEXT: f32 = 13.5;
/// Size of captions and words beside a drawing, in points.
pub const CAPTION: f32 = 12.5;
/// All space is a multiple of this, in points.
pub const GRID: f32 = 4.0;

const SOURCE: &str = include_str!("../../../assets/theme.ron");
/// How much a question darkens the window behind it, of 255.
const VEIL: u8 = 70;
const BOLD: &str = "bold";

/// The tones of one appearance, light or dark.
///
/// All transparent by default: before [`install`] nothing can be seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tokens {
    /// The ground of the window.
    #[serde(deserialize_with = "tone")]
    pub paper: Color32,
    /// The ground of a card, of the ledger, of what is selected.
    #[serde(deserialize_with = "tone")]
    pub panel: Color32,
    /// The ground of a control, and of the unused part of a bar.
    #[serde(deserialize_with = "tone")]
    pub fill: Color32,
    /// Separating lines.
    #[serde(deserialize_with = "tone")]
    pub line: Color32,
    /// Text that is read, and figures.
    #[serde(deserialize_with = "tone")]
    pub ink: Color32,
    /// Captions and second-rank text.
    #[serde(deserialize_with = "tone")]
    pub soft: Color32,
    /// What can be pressed, and what is chosen.
    #[serde(deserialize_with = "tone")]
    pub accent: Color32,
    /// Mark and bar of what fits.
    #[serde(deserialize_with = "tone")]
    pub fits: Color32,
    /// Mark and bar of what is tight.
    #[serde(deserialize_with = "tone")]
    pub tight: Color32,
    /// Mark and bar of a mismatch.
    #[serde(deserialize_with = "tone")]
    pub mismatch: Color32,
    /// Mark of what nobody published.
    #[serde(deserialize_with = "tone")]
    pub unstated: Color32,
}

impl Tokens {
    /// Outline of a control: dark enough to find its edge (contrast of at least 3 on paper and on panel).
    pub fn outline(&self) -> Color32 {
        self.soft.lerp_to_gamma(self.paper, 0.25)
    }

    /// The ground of a row under the mouse: light enough for the marks on it.
    pub fn hovered(&self) -> Color32 {
        self.paper.lerp_to_gamma(self.fill, 0.2)
    }

    /// The ground of what is selected: light enough for captions on it.
    pub fn selected(&self) -> Color32 {
        self.accent.lerp_to_gamma(self.panel, 0.87)
    }

    /// What lies over the window while a question is asked.
    pub fn veil() -> Color32 {
        Color32::from_black_alpha(VEIL)
    }

    /// The filled part of a bar that belongs to no status.
    pub fn bar(&self) -> Color32 {
        self.line.lerp_to_gamma(self.soft, 0.25)
    }
}

/// Both appearances.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Theme {
    /// Ink on paper.
    pub light: Tokens,
    /// Paper on ink.
    pub dark: Tokens,
}

impl Theme {
    /// The theme that the program carries.
    ///
    /// # Errors
    /// When the embedded text is not a theme; a test holds that it is one.
    pub fn embedded() -> ron::error::SpannedResult<Self> {
        ron::from_str(SOURCE)
    }
}

/// Sets fonts, both styles and the tokens of `ctx`.
pub fn install(ctx: &egui::Context, theme: &Theme) {
    ctx.set_fonts(fonts());
    // Where the system does not say: ink on paper.
    ctx.options_mut(|options| options.fallback_theme = egui::Theme::Light);
    ctx.set_style_of(egui::Theme::Light, style(&theme.light, Visuals::light()));
    ctx.set_style_of(egui::Theme::Dark, style(&theme.dark, Visuals::dark()));
    ctx.data_mut(|data| data.insert_temp(theme_id(), *theme));
}

/// The tokens in force where `ui` draws.
pub fn tokens(ui: &egui::Ui) -> Tokens {
    let theme = ui.data(|data| data.get_temp::<Theme>(theme_id()));
    let dark = ui.visuals().dark_mode;
    theme.map_or_else(Tokens::default, |t| if dark { t.dark } else { t.light })
}

/// Text in the bold face at the size of running text.
pub fn strong(text: impl Into<String>) -> RichText {
    RichText::new(text).font(bold(TEXT))
}

/// Text in the bold face at the size of a title.
pub fn title(text: impl Into<String>) -> RichText {
    RichText::new(text).font(bold(TITLE))
}

/// The sentence of a finding: the size of a title in the regular face, with air between its lines.
pub fn sentence(text: impl Into<String>) -> RichText {
    let text = RichText::new(text).font(regular(TITLE));
    text.line_height(Some(5.0 * GRID))
}

/// Second-rank text at the size of a caption.
pub fn caption(text: impl Into<String>) -> RichText {
    RichText::new(text).font(regular(CAPTION)).weak()
}

/// The regular face at `size` points; its digits are all of one width.
pub fn regular(size: f32) -> FontId {
    FontId::proportional(size)
}

/// The bold face at `size` points; its digits are all of one width.
pub fn bold(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name(BOLD.into()))
}

fn theme_id() -> Id {
    Id::unique("theme")
}

fn tone<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Color32, D::Error> {
    let text = String::deserialize(deserializer)?;
    let digits = text.len() == 6 && text.bytes().all(|b| b.is_ascii_hexdigit());
    let value = u32::from_str_radix(&text, 16).ok().filter(|_| digits);
    let Some(value) = value else {
        return Err(D::Error::custom(format!("`{text}` is no tone: six hexadecimal digits, say 22252A")));
    };
    let [_, red, green, blue] = value.to_be_bytes();
    Ok(Color32::from_rgb(red, green, blue))
}

fn fonts() -> FontDefinitions {
    const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/B612-Regular.otf");
    const HEAVY: &[u8] = include_bytes!("../../../assets/fonts/B612-Bold.otf");
    const SYMBOLS: &[u8] = include_bytes!("../../../assets/fonts/DejaVuSans.ttf");
    let mut fonts = FontDefinitions::empty();
    for (name, bytes) in [("regular", REGULAR), (BOLD, HEAVY), ("symbols", SYMBOLS)] {
        let data = Arc::new(FontData::from_static(bytes));
        fonts.font_data.insert(name.to_owned(), data);
    }
    let bold = FontFamily::Name(BOLD.into());
    for (family, first) in [(FontFamily::Proportional, "regular"), (FontFamily::Monospace, "regular"), (bold, BOLD)] {
        let chain = vec![first.to_owned(), "symbols".to_owned()];
        fonts.families.insert(family, chain);
    }
    fonts
}

fn style(tokens: &Tokens, base: Visuals) -> Style {
    let mut style = Style { visuals: visuals(tokens, base), ..Style::default() };
    style.text_styles = [
        (TextStyle::Heading, bold(TITLE)),
        (TextStyle::Body, regular(TEXT)),
        (TextStyle::Button, regular(TEXT)),
        (TextStyle::Monospace, regular(TEXT)),
        (TextStyle::Small, regular(CAPTION)),
    ]
    .into();
    let spacing = &mut style.spacing;
    spacing.item_spacing = vec2(2.0 * GRID, GRID);
    spacing.button_padding = vec2(2.0 * GRID, GRID);
    spacing.interact_size = vec2(10.0 * GRID, 6.0 * GRID);
    spacing.window_margin = Margin::same(16);
    spacing.menu_margin = Margin::same(8);
    spacing.indent = 4.0 * GRID;
    spacing.tooltip_width = 320.0;
    spacing.scroll = ScrollStyle::thin();
    style.interaction.tooltip_delay = 0.3;
    style
}

fn visuals(tokens: &Tokens, base: Visuals) -> Visuals {
    let shadow = Shadow { offset: [0, 2], blur: 8, spread: 0, color: Color32::from_black_alpha(40) };
    let mut visuals = Visuals {
        widgets: widgets(tokens),
        selection: Selection { bg_fill: tokens.selected(), stroke: Stroke::new(1.0, tokens.ink) },
        weak_text_color: Some(tokens.soft),
        hyperlink_color: tokens.accent,
        faint_bg_color: tokens.fill.lerp_to_gamma(tokens.paper, 0.5),
        extreme_bg_color: tokens.panel,
        code_bg_color: tokens.fill,
        warn_fg_color: tokens.ink,
        error_fg_color: tokens.ink,
        window_fill: tokens.panel,
        window_stroke: Stroke::new(1.0, tokens.line),
        window_shadow: shadow,
        popup_shadow: shadow,
        panel_fill: tokens.paper,
        window_corner_radius: CornerRadius::same(4),
        menu_corner_radius: CornerRadius::same(4),
        indent_has_left_vline: false,
        ..base
    };
    visuals.text_cursor.stroke = Stroke::new(2.0, tokens.accent);
    // A window that waits draws nothing.
    visuals.text_cursor.blink = false;
    visuals
}

fn widgets(tokens: &Tokens) -> Widgets {
    let rest = WidgetVisuals {
        bg_fill: tokens.fill,
        weak_bg_fill: tokens.fill,
        bg_stroke: Stroke::new(1.0, tokens.outline()),
        fg_stroke: Stroke::new(1.0, tokens.ink),
        corner_radius: CornerRadius::same(4),
        expansion: 0.0,
    };
    Widgets {
        noninteractive: WidgetVisuals {
            bg_fill: tokens.paper,
            weak_bg_fill: tokens.paper,
            bg_stroke: Stroke::new(1.0, tokens.line),
            ..rest
        },
        inactive: rest,
        hovered: WidgetVisuals { bg_stroke: Stroke::new(1.0, tokens.accent), ..rest },
        // Also what has the keyboard's focus, hence the broader edge.
        active: WidgetVisuals { bg_stroke: Stroke::new(2.0, tokens.accent), ..rest },
        open: WidgetVisuals { weak_bg_fill: tokens.panel, ..rest },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance, WCAG 2.2, "relative luminance" definition.
    fn luminance(tone: Color32) -> f64 {
        let linear = |channel: u8| {
            let c = f64::from(channel) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * linear(tone.r()) + 0.7152 * linear(tone.g()) + 0.0722 * linear(tone.b())
    }

    /// Contrast ratio, WCAG 2.2, "contrast ratio" definition.
    fn contrast(a: Color32, b: Color32) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    fn both() -> [Tokens; 2] {
        let theme = Theme::embedded().unwrap();
        [theme.light, theme.dark]
    }

    #[test]
    fn contrast_of_black_on_white_is_21_to_1() {
        // WCAG 2.2, note of the same definition: ratios range from 1 to 21.
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-9);
    }

    /// What a token is used for. A new token does not compile before it has its place here.
    struct Uses {
        grounds: Vec<Color32>,
        texts: Vec<Color32>,
        shapes: Vec<Color32>,
    }

    fn uses(t: &Tokens) -> Uses {
        // Separating lines carry no meaning of their own (WCAG 2.2, 1.4.11, "required to understand").
        let Tokens { paper, panel, fill, line: _, ink, soft, accent, fits, tight: _, mismatch, unstated } = *t;
        Uses {
            grounds: vec![paper, panel, fill, t.hovered(), t.selected()],
            texts: vec![ink, soft, accent],
            // The tone of tight is too light on paper to do it alone (2.0): its mark and its bar have an outline in soft.
            shapes: vec![fits, mismatch, unstated, soft, accent, t.outline()],
        }
    }

    #[test]
    fn text_is_readable_on_every_ground() {
        // WCAG 2.2, 1.4.3 Contrast (Minimum), level AA: 4.5 to 1.
        for uses in both().iter().map(uses) {
            for ground in &uses.grounds {
                for text in &uses.texts {
                    let ratio = contrast(*text, *ground);
                    assert!(ratio >= 4.5, "{text:?} on {ground:?}: {ratio:.2}");
                }
            }
        }
    }

    #[test]
    fn marks_and_outlines_stand_out() {
        // WCAG 2.2, 1.4.11 Non-text Contrast, level AA: 3 to 1, wherever rows with marks and fields with outlines stand.
        for t in both() {
            for ground in [t.paper, t.panel, t.hovered()] {
                for shape in uses(&t).shapes {
                    let ratio = contrast(shape, ground);
                    assert!(ratio >= 3.0, "{shape:?} on {ground:?}: {ratio:.2}");
                }
            }
        }
    }

    #[test]
    fn widgets_take_no_tone_of_their_own() {
        // What egui draws by itself: text and edges of every state, on the grounds of that state.
        for (t, base) in both().into_iter().zip([Visuals::light(), Visuals::dark()]) {
            let visuals = visuals(&t, base);
            let widgets = &visuals.widgets;
            for state in [&widgets.inactive, &widgets.hovered, &widgets.active, &widgets.open] {
                for ground in [state.bg_fill, state.weak_bg_fill] {
                    assert!(contrast(state.fg_stroke.color, ground) >= 4.5, "{:?} on {ground:?}", state.fg_stroke.color);
                }
                for around in [t.paper, t.panel] {
                    assert!(contrast(state.bg_stroke.color, around) >= 3.0, "{:?} on {around:?}", state.bg_stroke.color);
                }
            }
            let weak = visuals.weak_text_color.unwrap();
            for text in [weak, visuals.hyperlink_color, visuals.warn_fg_color, visuals.error_fg_color] {
                for ground in [visuals.window_fill, visuals.panel_fill, visuals.extreme_bg_color, visuals.code_bg_color] {
                    assert!(contrast(text, ground) >= 4.5, "{text:?} on {ground:?}");
                }
            }
        }
    }

    #[test]
    fn a_tone_that_is_not_six_digits_is_refused() {
        for tone in ["22252", "+2252A", "22252AFF", "ink"] {
            let text = SOURCE.replacen("22252A", tone, 1);
            let error = ron::from_str::<Theme>(&text).unwrap_err();
            assert!(error.to_string().contains("six hexadecimal digits"));
        }
    }

    fn with_fonts(mut look: impl FnMut(&egui::Ui)) {
        let ctx = egui::Context::default();
        install(&ctx, &Theme::embedded().unwrap());
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| look(ui));
        output.textures_delta.clear();
    }

    #[test]
    fn fonts_draw_the_signs_of_the_trade() {
        let mut missing = Vec::new();
        with_fonts(|ui| {
            ui.fonts_mut(|fonts| {
                for font in [regular(TEXT), bold(TEXT)] {
                    for sign in "0123456789×·–−±≤≥≈→⌀°Ωµηρ²³…›′″½✓▲•∞€£".chars() {
                        if !fonts.has_glyph(&font, sign) {
                            missing.push(sign);
                        }
                    }
                }
            });
        });
        assert_eq!(missing, Vec::<char>::new());
    }

    #[test]
    fn digits_are_of_one_width() {
        with_fonts(|ui| {
            for font in [regular(TEXT), bold(FIGURE)] {
                let width = |digit| ui.fonts_mut(|fonts| fonts.glyph_width(&font, digit));
                assert!(('1'..='9').all(|digit| (width(digit) - width('0')).abs() < 1e-6));
            }
        });
    }
}
