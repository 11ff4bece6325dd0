package chain_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tautspan/internal/chain"
)

// Limits: common practice, no source.
func TestDefaultLimitPercent(t *testing.T) {
	for _, row := range []struct {
		drive     chain.Drive
		sprockets int
		limit     float64
	}{
		{chain.Derailleur, 1, 0.75}, {chain.Derailleur, 10, 0.75},
		{chain.Derailleur, 11, 0.5}, {chain.Derailleur, 14, 0.5},
		{chain.Single, 0, 1.0}, {chain.Hub, 1, 1.0},
	} {
		assert.Equal(t, row.limit, chain.DefaultLimitPercent(row.drive, row.sprockets), "%v", row)
	}
	assert.Panics(t, func() { chain.DefaultLimitPercent("belt", 1) })
}
