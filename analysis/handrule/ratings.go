package handrule

import (
	"clampline/analysis"
	"clampline/diagram"
)

// ratings is what the protectors on one bus give there, mode by mode.
type ratings struct {
	best    [diagram.ModeCount]*rating  // the lowest that counts
	refused [diagram.ModeCount]*refused // the first that does not
	unrated [diagram.ModeCount]*refused // the first that would count but for its rating
}

func (s *solver) ratings(host *place, on []*diagram.Protector) *ratings {
	out, bus := &ratings{}, host.node.System
	lines := analysis.LinesOf(*host.part, bus)
	for _, protector := range on {
		for _, mode := range diagram.Modes() {
			if bus.Known() && !bus.HasMode(mode) {
				continue
			}
			switch reason := refusal(protector, mode, bus, lines); reason {
			case "":
				volts, added := s.rule.AtBus(protector, mode)
				if out.best[mode] == nil || volts < out.best[mode].volts {
					out.best[mode] = &rating{protector, mode, volts, added}
				}
			default:
				out.refuse(mode, &refused{protector: protector, reason: reason})
			}
		}
	}
	return out
}

// refuse notes a protector that does not count. One that merely has nothing
// in the mode gives way to one with something wrong.
func (r *ratings) refuse(mode diagram.Mode, why *refused) {
	if why.reason == analysis.NoRating && r.unrated[mode] == nil {
		r.unrated[mode] = why
	}
	before := r.refused[mode]
	if before == nil || before.reason == analysis.MissingMode && why.reason != analysis.MissingMode {
		r.refused[mode] = why
	}
}

// refusal returns what stands in the way of a mode, or nil. Where it would be
// spanned but for a rating that is not stated, that is what is missing.
func (r *ratings) refusal(mode diagram.Mode) *refused {
	out := r.refused[mode]
	if out == nil || out.reason != analysis.MissingMode {
		return out
	}
	for _, pair := range spans(mode) {
		a, b := r.unrated[pair[0]], r.unrated[pair[1]]
		if a != nil && (b != nil || r.best[pair[1]] != nil) {
			return &refused{protector: a.protector, reason: analysis.NoRating}
		}
		if b != nil && r.best[pair[0]] != nil {
			return &refused{protector: b.protector, reason: analysis.NoRating}
		}
	}
	return out
}

// cover returns the lowest voltage in a mode: by one protector, or by two
// modes in series, of which one may be the bond of neutral and earth. It is
// nil where nothing spans the mode.
func (r *ratings) cover(mode diagram.Mode, bonded bool) *cover {
	var out *cover
	if own := r.best[mode]; own != nil {
		out = &cover{volts: own.volts, first: *own}
	}
	for _, pair := range spans(mode) {
		first, second := r.best[pair[0]], r.best[pair[1]]
		sum := &cover{}
		switch {
		case first == nil:
			continue
		case bonded && pair[1] == diagram.NeutralEarth:
			*sum = cover{volts: first.volts, first: *first, bond: true}
		case second == nil:
			continue
		default:
			*sum = cover{volts: inSeries(*first, *second), first: *first, second: *second}
		}
		if out == nil || sum.volts < out.volts {
			out = sum
		}
	}
	return out
}

// arcVolts is what stands across a gap that has fired, V: 10 to 25 V whatever
// the current (ITU-T K.12, from memory).
const arcVolts = 25.0

// inSeries returns the voltage across two ratings in series, V. A gap holds it
// all until it fires, since its capacitance is far below that of a varistor, and
// nearly nothing from then on: the higher of the two counts. Without a gap the
// two add up.
func inSeries(a, b rating) float64 {
	gapA, gapB := a.isGap(), b.isGap()
	switch {
	case gapA && !gapB:
		return max(a.volts, b.volts+a.added+arcVolts)
	case gapB && !gapA:
		return max(b.volts, a.volts+b.added+arcVolts)
	}
	return a.volts + b.volts
}

func (r rating) isGap() bool { return r.protector.Modes[r.mode].Switching }
