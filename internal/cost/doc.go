// Package cost compares ways of changing the chain by what they cost per
// 1000 km: at a limit, never, or a rotation of several chains.
//
// With x elongation in percent, x0 = 0.03 % that of a new chain, R the rate in
// percent per 1000 km (harmonic mean), P prices and rho sprocket sets per
// chainring, sprockets are used up by
//
//	A(x) = a (x - x0) + b (x^3 - x0^3)/3,
//
// the part of a set that one chain uses up on its way to x; 1/A(x) is the
// number of chains a set outlives when they are always changed at x. The
// numbers a and b follow from two such counts. Cost per 1000 km is
//
//	limit x:       [Pchain + (Psprockets + Pring/rho) A(x)] R/(x - x0)
//	never:         [Pchain + Psprockets + Pring] R/(xg - x0),           A(xg) = 2
//	rotation of n: [n Pchain + Psprockets + Pring min(1, 2/rho)] R/[n (xn - x0)], n A(xn) = 2
//
// A chain and sprockets that wear out together last to A = 2, twice as far as
// sprockets that get new chains; at 3 % elongation, the general limit of roller
// chains (two industrial makers), the chain itself ends them.
//
// The model is ours, tried in simulation; no open data on sprocket wear was
// found. Every number in it can be changed by the request or is stated with the
// answer.
package cost
