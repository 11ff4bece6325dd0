package photo_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tautspan/internal/photo"
)

// A picture of 12 megapixels from file to answer.
func BenchmarkMeasure_12MP(b *testing.B) {
	s := plain()
	s.Width, s.Height = 4000, 3000
	file, line := s.JPEG(), photo.LineMM
	b.ReportAllocs()
	for b.Loop() {
		_, err := photo.Measure(file, &photo.Request{CheckLineMM: &line, CheckLineUMM: lineU})
		require.NoError(b, err)
	}
}
