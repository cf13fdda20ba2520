//! As much HTML as is needed to change a page's own few tags: a reader of start tags.

use anyhow::{Context, Result, bail};
use std::ops::Range;

/// A start tag as it stands in the text.
#[derive(Debug, PartialEq)]
pub struct Tag {
    pub name: String,
    pub attributes: Vec<(String, String)>,
    /// From `<` to behind `>`.
    pub range: Range<usize>,
}

impl Tag {
    pub fn get(&self, attribute: &str) -> Option<&str> {
        self.attributes
            .iter()
            .find(|(name, _)| name == attribute)
            .map(|(_, value)| value.as_str())
    }

    pub fn is(&self, name: &str, attribute: &str, value: &str) -> bool {
        self.name == name
            && self
                .get(attribute)
                .is_some_and(|found| found.eq_ignore_ascii_case(value))
    }
}

/// Every start tag outside comments and script text.
pub fn tags(html: &str) -> Vec<Tag> {
    let mut tags = Vec::new();
    let mut at = 0;
    while let Some(found) = html[at..].find('<') {
        at += found;
        let rest = &html[at..];
        if rest.starts_with("<!--") {
            at += rest.find("-->").map_or(rest.len(), |end| end + 3);
        } else if let Some(tag) = tag(html, at) {
            at = tag.range.end;
            if tag.name == "script" {
                at += html[at..].find("</script").unwrap_or(html.len() - at);
            }
            tags.push(tag);
        } else {
            at += 1;
        }
    }
    tags
}

fn tag(html: &str, start: usize) -> Option<Tag> {
    let name: String = html[start + 1..]
        .chars()
        .take_while(char::is_ascii_alphanumeric)
        .collect();
    if !name.starts_with(|first: char| first.is_ascii_alphabetic()) {
        return None;
    }
    let mut at = start + 1 + name.len();
    let mut attributes = Vec::new();
    loop {
        at += html[at..].find(|c: char| !c.is_ascii_whitespace() && c != '/')?;
        if html[at..].starts_with('>') {
            let range = start..at + 1;
            let name = name.to_ascii_lowercase();
            return Some(Tag {
                name,
                attributes,
                range,
            });
        }
        let end = at + html[at..].find(|c: char| c.is_ascii_whitespace() || "=/>".contains(c))?;
        let key = html[at..end].to_ascii_lowercase();
        at = end;
        let mut value = "";
        if let Some(rest) = html[at..].strip_prefix('=') {
            at += 1;
            if let Some(quote) = rest.chars().next().filter(|c| "\"'".contains(*c)) {
                let length = rest[1..].find(quote)?;
                value = &rest[1..=length];
                at += length + 2;
            } else {
                let length = rest.find(|c: char| c.is_ascii_whitespace() || c == '>')?;
                value = &rest[..length];
                at += length;
            }
        } else if at == start {
            return None;
        }
        attributes.push((key, value.to_string()));
    }
}

/// Puts new text in the place of ranges, which are in order and apart.
pub fn replace(html: &str, changes: &[(Range<usize>, String)]) -> String {
    let mut result = String::with_capacity(html.len());
    let mut at = 0;
    for (range, text) in changes {
        result.push_str(&html[at..range.start]);
        result.push_str(text);
        at = range.end;
    }
    result.push_str(&html[at..]);
    result
}

/// A style sheet as an element of the page.
pub fn style(path: &str, text: &str) -> Result<String> {
    let loads = text.match_indices("url(").any(|(at, _)| {
        !text[at + 4..]
            .trim_start_matches(['"', '\''])
            .starts_with(['d', '#'])
    });
    if loads || text.contains("@import") || text.contains("</style") {
        bail!("www/{path} loads another file or holds `</style`, and cannot be put into the page");
    }
    let text = without_comments(text)
        .with_context(|| format!("www/{path} has a comment that does not end"))?;
    Ok(format!("<style>\n{text}</style>"))
}

/// A style sheet without what is told to its readers alone; `None` where that does not end. None of ours has the signs of a comment within
/// a text.
fn without_comments(css: &str) -> Option<String> {
    let mut parts = css.split("/*");
    let mut out = parts.next()?.to_owned();
    for part in parts {
        out.push_str(part.split_once("*/")?.1);
    }
    Some(out)
}

/// States the content-security policy as early as it can be: in place of one that is there, or after the charset.
pub fn set_policy(html: &str, policy: &str) -> String {
    let meta = format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">");
    let tags = tags(html);
    if let Some(old) = tags
        .iter()
        .find(|tag| tag.is("meta", "http-equiv", "Content-Security-Policy"))
    {
        return replace(html, &[(old.range.clone(), meta)]);
    }
    let place = tags
        .iter()
        .find(|tag| tag.name == "meta" && tag.get("charset").is_some())
        .or_else(|| tags.iter().find(|tag| tag.name == "head"))
        .map_or(0, |tag| tag.range.end);
    replace(html, &[(place..place, format!("\n{meta}"))])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_style_sheet_goes_into_the_page_without_its_comments() {
        let css = "/* What it is. */\na {}\n/* More, and\nmore. */ b {}\n";
        assert_eq!(
            style("a.css", css).unwrap(),
            "<style>\n\na {}\n b {}\n</style>"
        );
        let open = style("a.css", "a {} /* More").unwrap_err();
        assert!(open.to_string().contains("www/a.css"), "{open}");
    }

    #[test]
    fn tags_are_read() {
        let html = "<!doctype html><!-- <p> --><LINK rel=stylesheet href=\"a.css\"/><script async>if (a<b) '<i>'</script><b x='1>2'>";
        let tags = tags(html);
        let names: Vec<&str> = tags.iter().map(|tag| tag.name.as_str()).collect();
        assert_eq!(names, ["link", "script", "b"]);
        assert!(tags[0].is("link", "rel", "stylesheet"));
        assert_eq!(tags[0].get("href"), Some("a.css"));
        assert_eq!(tags[1].get("async"), Some(""));
        assert_eq!(tags[2].get("x"), Some("1>2"));
        assert_eq!(&html[tags[2].range.clone()], "<b x='1>2'>");
    }

    #[test]
    fn cut_tags_end_quietly() {
        for html in [
            "<", "<a", "<a b", "<a b=", "<a b=\"", "<a b='c", "<!--", "<script>", "<é>", "a<b",
        ] {
            tags(html);
        }
    }

    #[test]
    fn the_policy_is_set_once() {
        let with = set_policy(
            "<head><meta charset=\"utf-8\"><title>T</title>",
            "default-src 'self'",
        );
        assert_eq!(
            with,
            "<head><meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" \
             content=\"default-src 'self'\"><title>T</title>"
        );
        let again = set_policy(&with, "default-src 'none'");
        assert_eq!(again.matches("Content-Security-Policy").count(), 1);
        assert!(again.contains("default-src 'none'"));
    }
}
