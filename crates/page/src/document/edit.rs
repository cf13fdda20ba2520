//! What is asked of the document, from wherever it comes.

use super::{Look, Mode};
use cordonry::check::{self, Part, Remedy};
use cordonry::model::Parameter;
