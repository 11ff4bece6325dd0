package wear

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tautspan/internal/words"
)

// Root sum of squares, published worked examples.
func TestMeasurement_u(t *testing.T) {
	for _, row := range []struct {
		source     string
		components []float64
		u          float64
		tolerance  float64
	}{
		{"JCGM 100:2008 H.1 end gauge, nm (seen in a national laboratory's tests)", []float64{25, 9.7, 2.9, 16.6}, 31.7, 0.05},
		{"JCGM 100:2008 H.1 difference term (same)", []float64{5.8, 3.9, 6.7}, 9.7, 0.05},
		{"JCGM 101:2008 9.2.3, four of unit uncertainty (seen)", []float64{1, 1, 1, 1}, 2.0, 1e-12},
		{"NPL guide 11 string, mm (from memory, computed digits agree)", []float64{2.5, 0.3, 5.8, 0.7}, 6.4, 0.05},
	} {
		m := &measurement{}
		for _, u := range row.components {
			m.add("part", u, words.Note{})
		}
		assert.InDelta(t, row.u, m.u(), row.tolerance, row.source)
	}
}

// JCGM 100:2008 4.3.7 as a EURACHEM extract prints it: a rectangle of
// half-width 1.5 has u 0.87.
func TestRectangular(t *testing.T) {
	assert.InDelta(t, 0.87, rectangular(1.5), 0.005)
}
