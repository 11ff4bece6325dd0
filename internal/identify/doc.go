// Package identify says which chain family a chain belongs to, from any mix of
// widths, pitch and roller taken with a caliper and from the bike it is on.
//
// Each family of the table in package chain states a range for each dimension.
// For a reading y with standard uncertainty u, a family whose range is [l, h]
// explains it with the likelihood of a uniform law blurred by a normal one,
//
//	L = 0.98 [Phi((h-y)/s) - Phi((l-y)/s)]/(h-l) + 0.02 b,  s^2 = u^2 + t^2,
//
// t being how far real chains stray from the table and b the flat density of a
// slip of the hand over everything a chain could measure. Likelihoods of
// several readings multiply; the bike and how common the family is give the
// prior; Bayes' rule gives the probabilities. The weights are our choice, not
// from any source.
//
// Pitch runs from 0.1 % short to 3 % long, because a worn chain reads long. The
// roller is worth little: all half-inch families share it.
package identify
