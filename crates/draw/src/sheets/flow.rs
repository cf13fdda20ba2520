//! Blocks laid on pages from top to bottom.

use crate::block::Block;
use crate::element::group;
use crate::paper::{MARGIN, Paper};
use kurbo::Point;
use svg::node::Node;
use svg::node::element::Element;

/// Height that is kept free at the foot of a page, pixels: for its number.
const FOOT: f64 = 24.0;
/// Height of the line that stands over every page but the first, pixels.
const RUNNING_HEAD: f64 = 40.0;
/// Room between two columns, pixels.
const BETWEEN: f64 = 30.0;
/// How many columns there are.
const COLUMNS: usize = 2;

/// A page as far as it is laid.
pub struct Page {
    /// What stands on it.
    pub content: Element,
    /// Whether a part of the wall is on it.
    pub has_wall: bool,
    is_empty: bool,
}

/// A block of a column; its origin is the column's left edge.
pub struct Item {
    pub block: Block,
    /// A heading, which stands in one column with what comes next.
    pub with_next: bool,
}

/// Pages that are being filled.
pub struct Flow {
    paper: Paper,
    pages: Vec<Page>,
    /// Where the next block goes on the last page, pixels from its upper edge.
    y: f64,
}

impl Flow {
    pub fn new(paper: Paper) -> Self {
        Self {
            paper,
            pages: vec![Page::new()],
            y: MARGIN,
        }
    }

    /// Height that is left on the last page, pixels.
    pub fn room(&self) -> f64 {
        self.paper.height() - MARGIN - FOOT - self.y
    }

    /// Height of a page after the first, pixels.
    pub fn page_room(paper: Paper) -> f64 {
        paper.height() - 2.0 * MARGIN - FOOT - RUNNING_HEAD
    }

    /// How many pages there are so far.
    pub fn count(&self) -> usize {
        self.pages.len()
    }

    /// Width of a column, pixels.
    pub fn column(paper: Paper) -> f64 {
        (paper.usable_width() - BETWEEN * (COLUMNS - 1) as f64) / COLUMNS as f64
    }

    pub fn turn(&mut self) {
        self.pages.push(Page::new());
        self.y = MARGIN + RUNNING_HEAD;
    }

    fn page(&mut self) -> &mut Page {
        if self.pages.is_empty() {
            self.turn();
        }
        let last = self.pages.len() - 1;
        &mut self.pages[last]
    }

    /// Lays a block over the whole width; one that does not fit goes on a new page.
    pub fn wide(&mut self, block: &Block, is_wall: bool) {
        // Not onto ever more empty pages, were it higher than one.
        if block.height > self.room() && !self.page().is_empty {
            self.turn();
        }
        let at = Point::new(0.0, self.y);
        let page = self.page();
        page.content.append(block.placed(at));
        page.has_wall |= is_wall;
        page.is_empty = false;
        self.y += block.height;
    }

    /// Lays items in columns that are read one after the other: on the last page of even height, on those before as high
    /// as the page. `head` stands over them and is not parted from the first.
    pub fn columns(&mut self, head: &Block, items: &[Item]) {
        let first = items.iter().find(|i| !i.with_next);
        let least = head.height + first.map_or(0.0, |i| 2.0 * i.block.height);
        if least > self.room() {
            self.turn();
        }
        self.wide(head, false);
        let mut rest = items;
        while !rest.is_empty() {
            let cut = match even(rest, self.room()) {
                Some(cut) => cut,
                None => fill(rest, self.room()),
            };
            if cut[COLUMNS - 1] == 0 {
                self.turn();
                // An item higher than a page: none is made so high, but none may be lost either.
                if fill(rest, self.room())[COLUMNS - 1] == 0 {
                    self.wide(&rest[0].block, false);
                    rest = &rest[1..];
                }
                continue;
            }
            self.lay(rest, cut);
            rest = &rest[cut[COLUMNS - 1]..];
            if !rest.is_empty() {
                self.turn();
            }
        }
    }

    /// Lays the items up to each of `cut` in its column.
    fn lay(&mut self, items: &[Item], cut: [usize; COLUMNS]) {
        let (top, step) = (self.y, Self::column(self.paper) + BETWEEN);
        let mut from = 0;
        let mut lowest = top;
        for (column, to) in cut.into_iter().enumerate() {
            let mut y = top;
            for item in &items[from..to] {
                let at = Point::new(MARGIN + step * column as f64, y);
                let page = self.page();
                page.content.append(item.block.placed(at));
                page.is_empty = false;
                y += item.block.height;
            }
            lowest = lowest.max(y);
            from = to;
        }
        self.y = lowest;
    }

    pub fn pages(self) -> Vec<Page> {
        self.pages
    }
}

impl Page {
    fn new() -> Self {
        Self {
            content: group("sheet"),
            has_wall: false,
            is_empty: true,
        }
    }
}

/// Where each column of that height ends; a heading is left for the next column.
fn fill(items: &[Item], height: f64) -> [usize; COLUMNS] {
    let mut out = [0; COLUMNS];
    let mut at = 0;
    for end in &mut out {
        let from = at;
        let mut left = height;
        while at < items.len() && items[at].block.height <= left {
            left -= items[at].block.height;
            at += 1;
        }
        if at < items.len() {
            let body = items[from..at].iter().rposition(|i| !i.with_next);
            at = body.map_or(from, |i| from + i + 1);
        }
        *end = at;
    }
    out
}

/// Where columns of the least height end that hold all items; `None` where `most` is too little for them.
fn even(items: &[Item], most: f64) -> Option<[usize; COLUMNS]> {
    let holds = |height: f64| fill(items, height)[COLUMNS - 1] == items.len();
    if !holds(most) {
        return None;
    }
    // The least height is that of some items in a row from the first.
    let mut height = 0.0;
    let mut heights: Vec<f64> = items
        .iter()
        .map(|i| {
            height += i.block.height;
            height
        })
        .filter(|h| *h < most)
        .collect();
    heights.push(most);
    let least = heights.into_iter().find(|h| holds(*h));
    least.map(|h| fill(items, h))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn items(heights: &[(f64, bool)]) -> Vec<Item> {
        heights
            .iter()
            .map(|(height, with_next)| Item {
                block: Block {
                    element: group("item"),
                    height: *height,
                },
                with_next: *with_next,
            })
            .collect()
    }

    #[test]
    fn columns_are_even_and_headings_stay_with_what_they_head() {
        let all = items(&[(10.0, false); 5]);
        assert_eq!(even(&all, 100.0), Some([3, 5]));
        assert_eq!(even(&all, 20.0), None);
        assert_eq!(fill(&all, 20.0), [2, 4]);
        let headed = items(&[(10.0, false), (10.0, true), (10.0, false), (10.0, false)]);
        assert_eq!(fill(&headed, 20.0), [1, 3]);
        assert_eq!(even(&headed, 30.0), Some([3, 4]));
        assert_eq!(even(&[], 30.0), Some([0, 0]));
    }

    #[test]
    fn nothing_is_lost_on_the_way_over_pages() {
        let head = || Block {
            element: group("head"),
            height: 20.0,
        };
        for count in [0, 1, 59, 60, 61, 300] {
            let mut flow = Flow::new(Paper::A4);
            flow.columns(&head(), &items(&vec![(22.0, false); count]));
            let pages = flow.pages();
            let laid: usize = pages
                .iter()
                .map(|p| p.content.to_string().matches("\"item\"").count())
                .sum();
            assert_eq!(laid, count);
        }
        // Higher than a page: laid by itself all the same.
        let mut flow = Flow::new(Paper::Letter);
        flow.columns(&head(), &items(&[(5000.0, false), (10.0, false)]));
        assert_eq!(
            flow.pages()
                .iter()
                .map(|p| p.content.to_string().matches("\"item\"").count())
                .sum::<usize>(),
            2
        );
    }
}
