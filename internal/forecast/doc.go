// Package forecast says when a chain will reach its limit, with how much
// certainty, from whatever readings there are: none, one, or hundreds.
//
// # Model
//
// s is the distance since the chain was new in 1000 km, x its elongation in
// percent of pitch.
//
//	y(s) = y0 + R G(s)        smooth wear
//	x    = L ((1+c)^(y/L) - 1)/c    elongation: wear speeds up by c towards L
//	x0   how long the chain was when new, normal, cut to the length tolerance
//	R    mean wear rate from new to the limit L, percent per 1000 km, unknown,
//	     log-normal about its care class
//	G    gamma process: the increment over ds is gamma, shape nu ds, scale 1/nu
//
// Elongation therefore never falls, large steps are likelier than a normal law
// says, and the spread of what is to come grows with the rate itself. Readings
// are normal about x, or intervals of it (a go/no-go gauge), and each may be a
// blunder. A gauge that bears on opposed rollers reads their play as well, the
// same each time; the calibration of a screen or a print, the making of a rule
// are errors that all readings with them share, and more readings never remove
// (own.go). The numbers are in prior.go and evidence.go, each with where
// it comes from.
//
// # Method
//
// Nothing is sampled, so the same question gets the same answer. For each rate
// on a grid a forward filter carries the distribution of x over a lattice from
// reading to reading; its normalisers give the rate's likelihood. A backward
// pass finds readings that do not go with the others. What is left to wear,
// z = (L - y)/R, decides the time to the limit L:
//
//	P(T <= t) = P(x >= L) + sum over z of w(z) Q(nu t, nu z)
//
// with Q the upper regularised incomplete gamma function. Files in reading
// order: prior, mark, own, increment, lattice, evidence, filter, posterior, history,
// slip, remaining, quantiles, curve, forecast.
//
// # How far to trust it
//
// No open data set of chain wear was found. The priors are common practice, and
// the accuracy is known from simulation only (simulation_test.go prints it); the
// parts of the method are checked against published data and brute force.
package forecast
