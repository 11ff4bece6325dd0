// Command picture writes the drawn test picture of a seed as a JPEG file, with
// what a rider would have measured on its check line, or how thick the rule is.
package main

import (
	"flag"
	"fmt"
	"os"

	"tautspan/internal/testkit/scene"
)

func main() {
	seed := flag.Uint64("seed", 1, "which picture")
	tilt := flag.Float64("tilt", 0, "degrees the phone is tilted along the frame instead of the seed's")
	ruled := flag.Bool("ruled", false, "a steel rule lies beside the rivets instead of the printed frame")
	out := flag.String("out", "picture.jpg", "file to write")
	flag.Parse()
	s := scene.New(*seed)
	if *ruled {
		s = scene.NewRuled(*seed)
	}
	if *tilt != 0 {
		s.TiltXDeg = *tilt
	}
	if err := os.WriteFile(*out, s.JPEG(), 0o644); err != nil {
		fmt.Fprintln(os.Stderr, "picture:", err)
		os.Exit(1)
	}
	fmt.Printf("{\"elongation_percent\":%g,\"check_line_mm\":%g,\"thickness_mm\":%g}\n",
		s.Elongation, s.MeasuredLineMM(240, 0.12), map[bool]float64{false: s.CardMM, true: s.Rule.ThickMM}[*ruled])
}
