// Package order sorts, in one copy of machine code for all types: package
// slices makes one for each, 10 kB apiece in the WebAssembly build.
package order

import "sort"

// By sorts a list, stably, so that compare(a, b) is never positive for
// neighbours. compare returns a negative number when a comes first, a positive
// one when b does, 0 when it does not matter.
func By[T any](list []T, compare func(a, b T) int) {
	sort.Stable(&swapper{
		n:    len(list),
		less: func(i, j int) bool { return compare(list[i], list[j]) < 0 },
		swap: func(i, j int) { list[i], list[j] = list[j], list[i] },
	})
}

type swapper struct {
	n    int
	less func(i, j int) bool
	swap func(i, j int)
}

func (s *swapper) Len() int           { return s.n }
func (s *swapper) Less(i, j int) bool { return s.less(i, j) }
func (s *swapper) Swap(i, j int)      { s.swap(i, j) }
