//! The files that parts and thresholds come from, and what each brings.

use std::path::{Path, PathBuf};

use propwright_engine::policy;
use propwright_schema::catalogue::{Catalogue, CatalogueFile};

use crate::state::{App, Kept};

/// How many shadowed parts are named.
const NAMED: usize = 4;

/// One file, or what the program carries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// Its name without the folder.
    pub name: String,
    /// Where it is; absent for what the program carries.
    pub path: Option<PathBuf>,
    /// What it brings: "12 parts · shadows 2: …".
    pub brings: String,
    /// Do other catalogues lie over it?
    pub below: bool,
    /// The problems of the last reading.
    pub problems: Vec<String>,
}

/// Where parts come from, and where thresholds come from.
pub fn sources(app: &App) -> (Vec<Source>, Vec<Source>) {
    let last = app.sources.catalogues.len().saturating_sub(1);
    let own = app.sources.catalogues.iter().enumerate().map(|(at, kept)| {
        let shadowed = app.sources.shadowed.get(at).map_or(&[][..], Vec::as_slice);
        catalogue(kept, shadowed, at < last)
    });
    let parts = std::iter::once(carried("Demo catalogue", counted(&app.sources.base))).chain(own).collect();
    let thresholds = match &app.sources.policy {
        None => carried("The program's own", "common practice where no source is named".to_owned()),
        Some(kept) => {
            let many = kept.content.as_ref().map_or(0, |own| policy::ALL.iter().filter(|limit| own.limit(limit).1).count());
            let brings = match many {
                0 => "changes nothing".to_owned(),
                1 => "changes 1 threshold".to_owned(),
                _ => format!("changes {many} thresholds"),
            };
            source(kept, kept.content.is_some(), brings, false)
        }
    };
    (parts, vec![thresholds])
}

fn carried(name: &str, brings: String) -> Source {
    Source { name: name.to_owned(), path: None, brings, below: false, problems: Vec::new() }
}

fn catalogue(kept: &Kept<CatalogueFile>, shadowed: &[String], below: bool) -> Source {
    let mut brings = kept.content.as_ref().map_or_else(String::new, |file| words(file.parts.len(), file.kits.len()));
    if !shadowed.is_empty() {
        let named: Vec<&str> = shadowed.iter().take(NAMED).map(String::as_str).collect();
        let more = if shadowed.len() > NAMED { format!(" and {} more", shadowed.len() - NAMED) } else { String::new() };
        brings = format!("{brings} · takes the place of {}: {}{more}", shadowed.len(), named.join(", "));
    }
    source(kept, kept.content.is_some(), brings, below)
}

fn source<T>(kept: &Kept<T>, in_force: bool, brings: String, below: bool) -> Source {
    let brings = match (in_force, kept.problems.is_empty()) {
        (true, true) => brings,
        (true, false) => format!("{brings} · as it was before these problems"),
        (false, _) => "not in force".to_owned(),
    };
    Source { name: name(&kept.path), path: Some(kept.path.clone()), brings, below, problems: kept.problems.clone() }
}

fn name(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

fn counted(catalogue: &Catalogue) -> String {
    words(catalogue.parts().count(), catalogue.kits().count())
}

fn words(parts: usize, kits: usize) -> String {
    let parts = if parts == 1 { "1 part".to_owned() } else { format!("{parts} parts") };
    match kits {
        0 => parts,
        1 => format!("{parts} · 1 kit"),
        _ => format!("{parts} · {kits} kits"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::Reading;
    use propwright_schema::load::load_catalogue;

    #[test]
    fn a_file_says_what_it_brings_and_what_it_shadows() {
        let text = "(version: 1, parts: [(id: \"f\", name: \"Own\", fills: [Frame()])])";
        let reading = Reading { stamp: None, content: Ok(load_catalogue("own.ron", text).unwrap()) };
        let mut kept = Kept::new("/shelf/own.ron".into(), reading);
        assert_eq!(catalogue(&kept, &["f".to_owned()], false).brings, "1 part · takes the place of 1: f");
        kept.take(Reading { stamp: None, content: Err(vec!["torn".to_owned()]) });
        assert_eq!(catalogue(&kept, &[], false).brings, "1 part · as it was before these problems");
        assert_eq!(catalogue(&kept, &[], false).problems, ["torn"]);
    }
}
