package engine_test

import (
	"fmt"
	"strings"
	"testing"

	"tautspan/internal/engine"
	"tautspan/internal/testkit"
)

// typical names the golden requests whose time is measured: the largest of each
// calculation, and wear as it is asked at every nudge.
var typical = []string{
	"wear/rule-12-in-sixteenth", "wear/gauge-half-drops", "identify/worn-nine", "length/four-by-fourteen",
	"centre/half-link", "centre/largest-search", "gears/two-rings", "cost/own-counts", "care/rain-on-wax", "ride/six-points",
}

// forecastRequest asks about n readings evenly over 2500 km of a chain that wears
// 0.2 % per 1000 km.
func forecastRequest(n int, gauge bool) []byte {
	readings := make([]string, n)
	for i := range readings {
		km := 2500 * float64(i+1) / float64(n)
		percent := 0.03 + 0.0002*km + 0.08*float64(i*7%5-2)/2
		reading := fmt.Sprintf(`{"kind":"rule","pitches":24,"span_mm":%.2f}`, 304.8*(1+percent/100))
		if gauge {
			reading = fmt.Sprintf(`{"kind":"gauge","bears_on":"opposed_rollers","steps":[{"percent":0.5,"drops":%t},{"percent":0.75,"drops":false}]}`, percent > 0.4)
		}
		readings[i] = fmt.Sprintf(`{"at_km":%.1f,"reading":%s}`, km, reading)
	}
	return []byte(`{"drive":"derailleur","rear_sprockets":10,"now_km":2500,"readings":[` + strings.Join(readings, ",") + `]}`)
}

// BenchmarkCall times the door, from JSON to JSON. `make bench` runs it natively
// and under WebAssembly and prints both.
func BenchmarkCall(b *testing.B) {
	measure := func(label, name string, request []byte) {
		b.Run(label, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := engine.Call(name, request); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	goldens := map[string][]byte{}
	for _, g := range testkit.Goldens(b) {
		goldens[g.Calculation+"/"+g.Name] = g.Request
	}
	for _, label := range typical {
		name, _, _ := strings.Cut(label, "/")
		measure(label, name, goldens[label])
	}
	for _, n := range []int{10, 32, 100, 500} {
		measure(fmt.Sprintf("forecast/readings=%d", n), "forecast", forecastRequest(n, false))
		measure(fmt.Sprintf("forecast/gauge-only=%d", n), "forecast", forecastRequest(n, true))
	}
}
