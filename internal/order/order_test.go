package order_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tautspan/internal/order"
)

// The oracle is package slices.
func TestBy_likeSlices(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	compare := func(a, b [2]int) int { return a[0] - b[0] }
	for n := range 200 {
		list := make([][2]int, n)
		for i := range list {
			list[i] = [2]int{r.IntN(10), i}
		}
		want := slices.Clone(list)
		slices.SortStableFunc(want, compare)
		order.By(list, compare)
		assert.Equal(t, want, list)
	}
}
