//! In which order the fields of a form stand: what pages nearly always print first, the rest folded.

use propwright_engine::explain::capital;
use propwright_schema::{first::entered_first, part::Role, typed::upper_end, value::Field};

use super::{Group, Line};
use crate::entering::{Article, Spot};

/// What stands first where a page prints all, and what is said by the shop.
const FIRST: [&str; 4] = ["name", "maker", "id", "mass_g"];
const SHOP: [&str; 6] = ["price", "priced_on", "supplier", "link", "pieces", "retired"];

/// The groups that stand open, and those that pages seldom print.
pub(super) fn grouped(article: &Article, line: &dyn Fn(Spot, &'static Field) -> Line) -> (Vec<Group>, Vec<Group>) {
    let first = match article.roles() {
        [role] => entered_first(role.word()),
        _ => &[],
    };
    if first.is_empty() { (whole(article, line), Vec::new()) } else { folded(article, first, line) }
}

/// All fields, where a page prints all, or the part is several things at once.
fn whole(article: &Article, line: &dyn Fn(Spot, &'static Field) -> Line) -> Vec<Group> {
    let around = |names: &dyn Fn(&str) -> bool| lines(article, None, names, line);
    let mut groups = vec![Group { title: "What it is".to_owned(), role: None, lines: around(&|name| FIRST.contains(&name)) }];
    groups.extend(article.roles().iter().enumerate().map(|(at, role)| Group {
        title: capital(role.word()),
        role: Some(at),
        lines: lines(article, Some(at), &|_| true, line),
    }));
    let rest = around(&|name| !FIRST.contains(&name) && !SHOP.contains(&name));
    let shop = Group { title: "Where it is sold".to_owned(), role: None, lines: around(&|name| SHOP.contains(&name)) };
    if matches!(article, Article::Kit(_)) {
        groups.push(Group { title: "The box, and notes".to_owned(), role: None, lines: rest });
        groups.push(shop);
    } else {
        groups.push(shop);
        groups.push(Group { title: "Source and notes".to_owned(), role: None, lines: rest });
    }
    groups
}

/// What is entered first in one group, the rest apart.
fn folded(
    article: &Article,
    first: &'static [&'static str],
    line: &dyn Fn(Spot, &'static Field) -> Line,
) -> (Vec<Group>, Vec<Group>) {
    let place = |name: &&'static str| {
        let role = [Some(0), None].into_iter().find(|role| article.fields(*role).iter().any(|field| field.name == *name))?;
        let spot = Spot::of(role, name);
        Some(line(spot, article.field(spot)?))
    };
    let open =
        Group { title: "Printed, or easily measured".to_owned(), role: None, lines: first.iter().filter_map(place).collect() };
    let word = article.roles().first().map_or("part", Role::word);
    let rest = |name: &str| !first.contains(&name);
    let group = |title: String, role: Option<usize>, names: &dyn Fn(&str) -> bool| Group {
        title,
        role: None,
        lines: lines(article, role, &|name| rest(name) && names(name), line),
    };
    let folded = [
        group(format!("More of the {word}"), Some(0), &|_| true),
        group("Where it is sold".to_owned(), None, &|name| SHOP.contains(&name)),
        group("Source and notes".to_owned(), None, &|name| !SHOP.contains(&name)),
    ];
    (vec![open], folded.into_iter().filter(|group| !group.lines.is_empty()).collect())
}

/// The fields of a role, or around the roles; the upper end of a range is entered with the lower one.
fn lines(
    article: &Article,
    role: Option<usize>,
    names: &dyn Fn(&str) -> bool,
    line: &dyn Fn(Spot, &'static Field) -> Line,
) -> Vec<Line> {
    let all = article.fields(role);
    let is_upper = |field: &Field| all.iter().any(|other| upper_end(other, all).is_some_and(|upper| upper.name == field.name));
    let shown = all.iter().filter(|field| names(field.name) && !is_upper(field));
    shown.map(|field| line(Spot::of(role, field.name), field)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::view::Control;

    #[test]
    fn no_field_is_lost_and_none_stands_twice() {
        for kind in Role::WORDS.iter().chain(std::iter::once(&crate::entering::KIT)) {
            let article = Article::of_kind(kind).unwrap();
            let bare = |spot: Spot, _: &'static Field| Line {
                spot,
                name: spot.field.to_owned(),
                help: String::new(),
                control: Control::Text(String::new()),
                behind: String::new(),
                remark: None,
                vouched: None,
            };
            let (open, folded) = grouped(&article, &bare);
            let mut shown: Vec<Spot> = open.iter().chain(&folded).flat_map(|group| &group.lines).map(|line| line.spot).collect();
            let upper: Vec<Spot> = shown.iter().filter_map(|spot| article.upper_end(*spot)).collect();
            shown.extend(upper);
            shown.sort();
            let roles = std::iter::once(None).chain((0..article.roles().len()).map(Some));
            let spots = |role: Option<usize>| article.fields(role).iter().map(move |field| Spot::of(role, field.name));
            let mut all: Vec<Spot> = roles.flat_map(spots).collect();
            all.sort();
            assert_eq!(shown, all, "{kind}");
        }
    }
}
