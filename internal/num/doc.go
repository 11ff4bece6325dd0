// Package num holds the numerical methods the models need: distribution
// functions, special functions, quadrature and roots. It knows nothing of
// chains and imports the standard library only.
package num
