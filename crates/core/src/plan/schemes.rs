//! A plan's schemes: added, copied, named, removed.

use super::{Plan, Scheme};
use crate::refusal::Refusal;
use crate::said::Arg;
use std::sync::Arc;

impl Plan {
    /// Longest name that is made up for a scheme, in characters.
    const MAX_MADE_UP: usize = 100;

    /// The plan with one more scheme, without work, whose windows stand as those of the scheme at `like`. It is the last one.
    ///
    /// # Errors
    /// No such scheme; [as many](Self::MAX_SCHEMES) as a plan holds.
    pub fn with_scheme_added(&self, like: usize) -> Result<Plan, Refusal> {
        let like = self.scheme(like)?;
        let scheme = Scheme {
            name: self.free_name("A"),
            crop_from: like.crop_from,
            ..Scheme::default()
        };
        let rules = like.standing.as_ref().map(|s| s.rules.clone());
        let last = self.schemes.len();
        let mut plan = self.with_last(scheme)?;
        if let Some(rules) = rules {
            plan = plan.with_standing(last, true)?;
            if let Some(standing) = &mut Arc::make_mut(&mut plan.schemes[last]).standing {
                standing.rules = rules;
            }
        }
        Ok(plan)
    }

    /// The plan with a copy of a scheme as its last one, under a name of its own.
    ///
    /// # Errors
    /// As [`Self::with_scheme_added`].
    pub fn with_scheme_copied(&self, scheme: usize) -> Result<Plan, Refusal> {
        let scheme = self.scheme(scheme)?;
        self.with_last(Scheme {
            name: self.free_name(&scheme.name),
            ..(**scheme).clone()
        })
    }

    fn with_last(&self, scheme: Scheme) -> Result<Plan, Refusal> {
        if self.schemes.len() >= Self::MAX_SCHEMES {
            let high = Arg::Count(Self::MAX_SCHEMES as i64);
            return Err(Refusal::new("refusal-schemes", vec![("high", high)]));
        }
        let mut plan = self.clone();
        plan.schemes.push(Arc::new(scheme));
        Ok(plan)
    }

    /// The plan with another name for a scheme; what stands around it is no part of a name.
    ///
    /// # Errors
    /// No such scheme; no name, or that of another scheme; one longer than [`Self::MAX_TEXT`].
    pub fn with_scheme_named(&self, scheme: usize, name: &str) -> Result<Plan, Refusal> {
        self.scheme(scheme)?;
        let name = name.trim();
        let mut others = self.schemes.iter().enumerate();
        let taken = others.any(|(i, s)| i != scheme && s.name.trim() == name);
        if taken || name.is_empty() || name.chars().count() > Self::MAX_TEXT {
            let name = Arg::Text(name.chars().take(Self::MAX_MADE_UP).collect());
            return Err(Refusal::new("refusal-scheme-name", vec![("name", name)]));
        }
        let mut plan = self.clone();
        Arc::make_mut(&mut plan.schemes[scheme]).name = name.into();
        Ok(plan)
    }

    /// The plan without a scheme.
    ///
    /// # Errors
    /// No such scheme; the only one.
    pub fn without_scheme(&self, scheme: usize) -> Result<Plan, Refusal> {
        self.scheme(scheme)?;
        if self.schemes.len() == 1 {
            return Err(Refusal::new("refusal-scheme-last", vec![]));
        }
        let mut plan = self.clone();
        plan.schemes.remove(scheme);
        Ok(plan)
    }

    /// A name that no scheme has, after that of another: the next letter after a letter, else the next number behind it.
    fn free_name(&self, like: &str) -> String {
        let is_free = |name: &String| !self.schemes.iter().any(|s| s.name.trim() == name);
        let like = like.trim();
        let letter = |c: u8| char::from(c).to_string();
        if matches!(like.as_bytes(), [b'A'..=b'Z'])
            && let Some(name) = (b'A'..=b'Z').map(letter).find(is_free)
        {
            return name;
        }
        let own = like.trim_end_matches(|c: char| c.is_ascii_digit());
        // A number that belongs to a word, as in "2.5", is none of ours.
        let stem = if own.ends_with(' ') {
            own.trim_end()
        } else {
            like
        };
        let stem: String = stem.chars().take(Self::MAX_MADE_UP).collect();
        let numbered = |n: usize| format!("{stem} {n}").trim().to_string();
        let mut names = (2..=Self::MAX_SCHEMES + 2).map(numbered);
        names.find(is_free).unwrap_or(stem)
    }
}
