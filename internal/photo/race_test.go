//go:build race

package photo_test

// Under the race detector everything is many times slower, and nothing here
// runs at once; make test takes the whole of it without the detector.
func init() { *pictures, briefly = 2, true }
