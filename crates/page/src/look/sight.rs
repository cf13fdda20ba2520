//! A look that is kept up to date with the document.

use super::{LightFindings, Look, NotOffered, Scene};
use crate::document::Document;
use cordonry::arrange::Arrange;
use cordonry::check::{Finding, LightFound, Offered, Remedy, take_offers};
use cordonry::refusal::Refusal;
use cordonry::row::TreeId;
use cordonry::work::Work;

/// What of a scene has to be drawn anew.
#[derive(Debug, Default)]
pub struct Redraw {
    /// Trees whose drawing is out of date.
    pub trees: Vec<TreeId>,
    /// Whether the whole row is another one.
    pub all: bool,
}

/// A look, its scene, and what has changed in it since it was drawn last.
pub struct Sight {
    look: Look,
    scene: Scene,
    redraw: Redraw,
    light: LightFindings,
    /// What was found, with the remedies that are offered, once they are known.
    offered: Option<Vec<Finding>>,
    /// Why others have none.
    not_offered: Vec<NotOffered>,
    /// The same of the row as it was when they were known last, from left to right.
    last: Vec<Finding>,
}

impl Sight {
    /// Looks at a document.
    ///
    /// # Errors
    /// A plan without any scheme.
    pub fn new(document: &Document, look: Look) -> Result<Self, Refusal> {
        let scene = Scene::of(document, look, None)?;
        Ok(Self {
            look: scene.look,
            scene,
            redraw: Redraw {
                all: true,
                ..Redraw::default()
            },
            light: LightFindings::default(),
            offered: None,
            not_offered: Vec::new(),
            last: Vec::new(),
        })
    }

    /// What is looked at.
    pub fn look(&self) -> Look {
        self.look
    }

    /// What is seen.
    pub fn scene(&self) -> &Scene {
        &self.scene
    }

    /// Looks at something else.
    pub fn turn(&mut self, document: &Document, look: Look) {
        self.look = look;
        self.follow(document);
    }

    /// Looks at something else, if what is seen there can be another than what is seen here.
    pub fn turn_where_changed(&mut self, document: &Document, look: Look) {
        if (look, document.mode()) != (self.look, self.scene.mode)
            || !self.scene.hangs_on_the_same(document.plan())
        {
            self.turn(document, look);
        }
    }

    /// Works out what is seen of the document as it is now.
    pub fn follow(&mut self, document: &Document) {
        self.look = self.look.within(document.plan());
        let Ok(mut next) = Scene::of(document, self.look, Some(&mut self.scene)) else {
            // The scheme is one of the plan's own.
            return;
        };
        self.light.tell_costs(&mut next.findings);
        let old = std::mem::replace(&mut self.scene, next);
        if !self.scene.is_same_as(&old)
            && let Some(offered) = self.offered.take()
        {
            self.last = offered;
            self.last.arrange_by(|a, b| a.x.total_cmp(&b.x));
        }
        if self.scene.stands_as(&old) {
            let changed = self.scene.changed_trees(&old);
            if !changed.is_empty() || !self.scene.same_limits(&old) {
                self.light.waits();
            }
            self.redraw.trees.extend(changed);
        } else {
            self.light.waits();
            self.redraw.all = true;
        }
    }

    /// What has to be drawn anew since the last call.
    pub fn take_redraw(&mut self) -> Redraw {
        std::mem::take(&mut self.redraw)
    }

    /// Has all of it drawn anew.
    pub fn draw_all(&mut self) {
        self.redraw.all = true;
    }

    /// What was found of its light.
    pub fn light(&self) -> &LightFindings {
        &self.light
    }

    /// Takes what the checks say of its light.
    pub fn judge_light(&mut self, found: LightFound) {
        self.light.take(found);
        self.light.tell_costs(&mut self.scene.findings);
        if let Some(offered) = &mut self.offered {
            self.light.tell_costs(offered);
        }
    }

    /// Takes which remedies are offered of what was found, and why the rest has none.
    pub fn take_offers(&mut self, offers: &[Offered], others: Vec<NotOffered>) {
        self.not_offered = others;
        self.offered = Some(take_offers(self.scene.findings.clone(), offers));
    }

    /// Whether what is found waits for an answer about the row as it is: its remedies do too.
    pub fn waits(&self, finding: &Finding) -> bool {
        self.is_untried(finding) || self.light.is_out_of_date(finding)
    }

    /// The remedies that are listed with a finding. While they wait, what stood there before has those that it had: what was
    /// tried and left out then does not come and go again.
    pub fn remedies<'f>(&'f self, finding: &'f Finding) -> &'f [Remedy] {
        let last: &[Finding] = match self.is_untried(finding) {
            true => &self.last,
            false => &[],
        };
        // Asked of every finding while a hand moves: what stood elsewhere is passed over.
        let from = last.partition_point(|old| old.x <= finding.x - Finding::AGAIN);
        let near = |old: &&Finding| old.x < finding.x + Finding::AGAIN;
        let mut near = last[from..].iter().take_while(near);
        let stood = near.find(|old| old.is_again(finding));
        &stood.unwrap_or(finding).remedies
    }

    /// Whether all remedies that a finding had were left out when they were tried.
    pub fn holds_back(&self, finding: &Finding) -> bool {
        let had = |f: &Finding| f.is_again(finding) && !f.remedies.is_empty();
        self.offered.is_some() && finding.remedies.is_empty() && self.scene.findings.iter().any(had)
    }

    /// Whether the work of the moment does already what would mend a finding on the row as it stands before it.
    pub fn is_planned(&self, finding: &Finding) -> bool {
        let had = self.scene.findings.iter().find(|f| f.is_again(finding));
        let planned = |work: &Work| self.scene.work().any(|w| w == work);
        let done = |r: &Remedy| !r.work.is_empty() && r.work.iter().all(planned);
        had.is_some_and(|f| f.remedies.iter().any(done))
    }

    /// Why a finding has no remedy that is offered.
    pub fn not_offered(&self, finding: &Finding) -> &NotOffered {
        let all = self.scene.findings.iter().zip(&self.not_offered);
        let mut own = all.filter(|(f, _)| self.offered.is_some() && f.is_again(finding));
        own.next().map_or(&NotOffered::Unknown, |(_, why)| why)
    }

    fn is_untried(&self, finding: &Finding) -> bool {
        let scene = self.scene.findings.as_ptr_range();
        self.offered.is_none() && scene.contains(&std::ptr::from_ref(finding))
    }

    /// All that was found, of the light too: the gravest first.
    pub fn all_findings(&self) -> Vec<&Finding> {
        let light = self.light.all();
        let found = self.offered.as_ref().unwrap_or(&self.scene.findings);
        let mut all: Vec<&Finding> = found.iter().chain(light).collect();
        all.arrange_by_key(|f| std::cmp::Reverse(f.severity));
        all
    }
}
