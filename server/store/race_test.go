//go:build race

package store_test

// Under the race detector everything is many times slower, and a world holds
// little that runs at once.
func init() { *seeds = 300 }
