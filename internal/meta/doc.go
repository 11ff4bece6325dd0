// Package meta holds tests only: the rules of the house, each with its reason,
// kept by a machine so that reviews can be about other things.
package meta
