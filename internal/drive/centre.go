package drive

import (
	"tautspan/internal/chain"
	"tautspan/internal/words"
)

// singleLimitPercent is when a chain on one sprocket is changed.
var singleLimitPercent = chain.DefaultLimitPercent(chain.Single, 1)

// Centre returns which counts of pitches close on axles a fixed distance apart,
// where the axle ends up, whether the adjustment reaches, and how much wear it
// can still take up; with a search, which ring and sprocket pairs close with the
// axle where it is. Errors are *fault.Error naming the field: wheels that would
// touch, a search that is too large or not in whole teeth.
func Centre(r *CentreRequest) (*CentreResponse, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	f := newFixed(r.Chainring, r.Sprocket, r)
	answer := &CentreResponse{
		ExactPitches: f.exact(r.CentreMM),
		Options:      r.options(f, r.HalfLinkAllowed),
		Drawing:      newDrawing(r.Chainring, r.Sprocket, r.CentreMM, f.pitchMM, 0),
	}
	found := best(answer.Options)
	if found != nil {
		answer.Pitches, answer.WearReservePercent = &found.Pitches, found.WearReservePercent
	}
	if r.Search != nil {
		answer.Pairs = r.pairs()
	}
	answer.explain(r, found)
	return answer, nil
}

// options returns every count that closes from just under the taut length at
// the nearest distance to just over it at the farthest.
func (r *CentreRequest) options(f fixed, halfLinks bool) []Option {
	first := closableBelow(f.exact(r.CentreMM+r.AdjustMM[0]), halfLinks)
	last := closableBelow(f.exact(r.CentreMM+r.AdjustMM[1]), halfLinks) + step(halfLinks)
	options := []Option{}
	for pitches := first; pitches <= last; pitches += step(halfLinks) {
		if option, err := r.option(f, pitches); err == nil {
			options = append(options, option)
		}
	}
	return options
}

// option returns what a count gives. The axle can have any distance between
// nearest and farthest; the wanted play is had from loosest to snuggest.
func (r *CentreRequest) option(f fixed, pitches int) (Option, error) {
	taut, err := f.axleMM(pitches, 0)
	if err != nil {
		return Option{}, err
	}
	nearest, farthest := r.CentreMM+r.AdjustMM[0], r.CentreMM+r.AdjustMM[1]
	axle := min(max(f.axleOrNearest(pitches, (r.SlackMM[0]+r.SlackMM[1])/2, nearest), nearest), farthest)
	p := Option{
		Pitches: pitches, HalfLink: pitches%2 == 1, CentreMM: taut, ShiftMM: taut - r.CentreMM,
		AxleShiftMM: axle - r.CentreMM, PlayMM: f.playMM(pitches, axle),
		Drawing: newDrawing(r.Chainring, r.Sprocket, axle, f.pitchMM, pitches),
	}
	switch {
	case p.PlayMM < r.SlackMM[0]-playRounding || taut < axle-playRounding:
		p.State = Tight
	case p.PlayMM > r.SlackMM[1]+playRounding:
		p.State = Slack
	default:
		p.State, p.Fits = OK, true
		p.WearReservePercent = f.reservePercent(pitches, farthest, r.SlackMM[1], r.PitchMM)
	}
	return p, nil
}

// playRounding forgives the last bits of a play, in mm, that is just as wanted.
const playRounding = 1e-6

// axleOrNearest is axleMM, or nearest where the wheels would touch first.
func (f fixed) axleOrNearest(pitches int, playMM, nearest float64) float64 {
	axle, err := f.axleMM(pitches, playMM)
	if err != nil {
		return nearest
	}
	return axle
}

// best returns the first option that fits, one without a half link if there is
// one: options go from short to long, and the shorter leaves more wear reserve.
// It returns nil where none fits.
func best(options []Option) *Option {
	var found *Option
	for i := range options {
		if p := &options[i]; p.Fits && (found == nil || found.HalfLink && !p.HalfLink) {
			found = p
		}
	}
	return found
}

// explain adds the warnings, the next steps and the cautions.
func (a *CentreResponse) explain(r *CentreRequest, found *Option) {
	a.Warnings = a.warn(r, found)
	for _, code := range []string{"next_centre_tightest", "next_centre_line_up", "next_centre_guard"} {
		a.NextSteps = append(a.NextSteps, words.N(code))
	}
	if found != nil && found.HalfLink {
		a.Cautions = append(a.Cautions, words.N("caution_half_link"))
	}
	for _, code := range []string{"caution_play", "caution_fixed", "caution_closure", "caution_fingers", "caution_guidance"} {
		a.Cautions = append(a.Cautions, words.N(code))
	}
}

func (a *CentreResponse) warn(r *CentreRequest, found *Option) (warnings []words.Note) {
	cannotMove := r.AdjustMM[0] == r.AdjustMM[1]
	if cannotMove || r.Search != nil {
		warnings = append(warnings, words.N("new_chain_play",
			words.V("most", chain.NewTolerancePercent, 2), words.V("play", a.newChainPlayMM(), 0)))
	}
	limit := words.V("limit", singleLimitPercent, 1)
	if r.ElongationPercent >= singleLimitPercent-rounding {
		warnings = append(warnings, words.N("past_single_limit", words.V("elongation", r.ElongationPercent, 2), limit))
	}
	if found == nil {
		warnings = append(warnings, words.N("no_count_fits"))
		if odd := best(r.options(newFixed(r.Chainring, r.Sprocket, r), true)); odd != nil {
			warnings = append(warnings, words.N("half_link_would_fit", count("pitches", odd.Pitches)))
		}
		return warnings
	}
	if at := r.ElongationPercent + found.WearReservePercent; at < singleLimitPercent {
		warnings = append(warnings, words.N("reserve_short", words.V("at", at, 2), limit))
	}
	if cannotMove {
		warnings = append(warnings, words.N("play_cannot_be_set"))
	}
	return warnings
}

// newChainPlayMM returns the play that the length tolerance of a new chain alone
// can give: the two straight runs grow by it, the wrapped part does not.
func (a *CentreResponse) newChainPlayMM() float64 {
	return PlayMM(a.Drawing.StraightMM, 2*a.Drawing.StraightMM*chain.NewTolerancePercent/100)
}
