// Package photo measures a chain's elongation from one photograph: a printed
// window frame rests on the outer plates, with checks on both sides of the
// chain, and shows scale, tilt and the lens's distortion; the rivets are found
// by their rims. The print is never trusted: its check line must have been
// measured with a rule.
//
//	elongation = 100 (scale · pitch seen / 12.7 mm - 1), scale = line measured / 240 mm
//
// The pitch seen is the least-squares mean over whole links. The standard
// uncertainty is the root sum of squares of a budget (JCGM 100:2008, 5.1.2).
// Whatever would make the figure doubtful refuses it. All of this was developed
// on drawn pictures (internal/testkit/scene); how accurate it is on photographs
// is not known.
package photo
