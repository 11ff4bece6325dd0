// Package wear turns one reading of a chain into elongation with its
// uncertainty, the probability of being past the limit, and a verdict.
//
// Elongation is e = 100 (span/(pitches · pitch) - 1), in percent of pitch. Its
// standard uncertainty is the root sum of squares of a budget (JCGM 100:2008,
// "GUM", clause 5.1); the probability of being past the limit is the part of
// the distribution beyond it (JCGM 106:2012, clause 7). The verdict is never
// kinder than that probability.
package wear
