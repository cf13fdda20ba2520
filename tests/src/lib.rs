//! What the test programs share.
