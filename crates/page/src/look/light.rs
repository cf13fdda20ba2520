//! What the checks say of the light of a row, and whether that still holds.

use cordonry::check::{Finding, LightCost, LightFound, tell_costs};

/// Findings of the light. Each answer holds until the row changes; its findings stay listed until the next.
#[derive(Debug, Default)]
pub struct LightFindings {
    findings: Vec<Finding>,
    costs: Vec<LightCost>,
    hold: bool,
}

impl LightFindings {
    /// What was found last.
    pub fn all(&self) -> &[Finding] {
        &self.findings
    }

    /// Takes what was found of the row as it is.
    pub fn take(&mut self, found: LightFound) {
        self.findings = found.findings;
        self.costs = found.costs;
        self.hold = true;
    }

    /// Has the findings about the wood tell what they cost in light, as of the last answer.
    pub(super) fn tell_costs(&self, findings: &mut [Finding]) {
        tell_costs(&self.costs, findings);
    }

    /// The row has changed: what was found waits for a new answer.
    pub(super) fn waits(&mut self) {
        self.hold = false;
    }

    /// Whether a finding was made of a row that has changed since, and waits for a new answer: its remedies do too.
    pub fn is_out_of_date(&self, finding: &Finding) -> bool {
        !self.hold && self.findings.iter().any(|f| std::ptr::eq(f, finding))
    }
}
