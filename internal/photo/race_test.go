//go:build race

package photo_test

// Under the race detector everything is many times slower, and nothing here
// runs at once.
func init() { *pictures = 3 }
